#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/diagnostic.h"
#include "build/faults_internal.h"

/// The build file's text as an ordered tree. Every scalar keeps its own writing and every node its
/// place in the text, so that a fault can be pointed at and nothing is rewritten by saving.
namespace rig::build {

/// Deeper than any build file goes (eight), and shallow enough for every stack.
inline constexpr std::size_t kDeepest = 64;

enum class Kind { kNull, kBoolean, kNumber, kString, kArray, kObject };

/// The kind in words for a message: "a list", "text".
std::string_view kind_name(Kind kind);

struct Member;

/// One JSON value.
struct Node {
  Kind kind = Kind::kNull;
  std::string raw;        ///< A scalar as it was written, with its quotes.
  std::string text;       ///< A string's content, escapes resolved.
  TextPosition at;        ///< Of its first byte.
  bool one_line = false;  ///< A list or group whose brackets stand on one line.
  std::vector<Node> elements;
  std::vector<Member> members;

  /// The member with this key, or null. The first one if a damaged file has two.
  const Member* find(std::string_view key) const;
};

struct Member {
  std::string key;
  TextPosition key_at;
  Node value;
};

class Document {
 public:
  explicit Document(Node root) : root_(std::move(root)) {}
  const Node& root() const { return root_; }

 private:
  Node root_;
};

/// Parses JSON (RFC 8259; a UTF-8 byte-order mark in front is skipped) and goes on after the slips
/// that hands make (a comma too few or too many, a comment, text without quotes), which are all
/// reported.
///
/// @return  The tree; empty if the rest of the text could not be made sense of. A value that was
///          reported stands in the tree as null.
std::optional<Node> parse_json(std::string_view text, Faults& faults);

/// The value of a JSON number's text; none if a double can't hold it.
std::optional<double> number_from_raw(std::string_view raw);

/// A text as a JSON string; only what JSON says must be is escaped.
std::string quote(std::string_view text);

/// One step of a JSON pointer: `~` and `/` escaped (RFC 6901).
std::string escape_pointer(std::string_view key);

/// The steps of a JSON pointer, unescaped; empty if it isn't one. The empty pointer has no steps.
std::optional<std::vector<std::string>> split_pointer(std::string_view pointer);

/// A step into a list: its number, counted from 0, without leading zeros.
std::optional<std::size_t> index_from_step(std::string_view step);

/// Where in the text a value stands, and the key in front of it (for an item of a list: itself).
struct Located {
  TextPosition key;
  TextPosition value;
};

/// Where a pointer leads; if it ends in nothing, where the last thing on its way stands.
Located locate(const Node& root, std::string_view pointer);

}  // namespace rig::build
