#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/diagnostic.h"
#include "build/faults_internal.h"

namespace rig::build {

/// A place in JSON text that moves forward over blanks, strings and bare tokens, counts lines, and
/// knows the pointer of what is being read, for the faults it reports.
class Scanner {
 public:
  Scanner(std::string_view text, Faults& faults) : text_(text), faults_(faults) {}

  bool at_end() const { return offset_ >= text_.size(); }
  /// The byte at this place or `ahead` bytes on; 0 past the end.
  char peek(std::size_t ahead = 0) const {
    return offset_ + ahead < text_.size() ? text_[offset_ + ahead] : '\0';
  }
  void skip(std::size_t bytes) { offset_ += bytes; }
  TextPosition position() const { return {line_, static_cast<int>(offset_ - line_start_) + 1}; }
  /// The character here for a message, or "the end of the text".
  std::string here() const;

  /// Skips blanks; comments are reported and skipped.
  void skip_blanks();

  struct String {
    std::string raw;   ///< As written, with its quotes.
    std::string text;  ///< Escapes resolved.
  };
  /// A string in double quotes, from its opening quote. Faults inside are reported and passed over;
  /// none if it doesn't end on its line.
  std::optional<String> read_string();

  /// A run of letters, digits and `_ + - .`.
  std::string_view read_token();
  /// The rest of what was meant as one bare value: up to a comma, bracket, quote or line end.
  std::string_view read_bare();
  void return_to(std::string_view token) {
    offset_ = static_cast<std::size_t>(token.data() - text_.data());
  }

  void enter(std::string step) { path_.push_back(std::move(step)); }
  void leave() { path_.pop_back(); }
  std::size_t depth() const { return path_.size(); }

  /// Reports a fault of the JSON at a place under the pointer being read.
  void fault(TextPosition at, std::string message, std::string remedy,
             std::string_view code = "build.not_json");
  bool full() const { return faults_.full(); }

 private:
  void read_escape(String& string);
  std::optional<std::uint32_t> read_four_hex();
  void skip_line();
  void skip_block_comment();

  std::string_view text_;
  Faults& faults_;
  std::size_t offset_ = 0;
  int line_ = 1;
  std::size_t line_start_ = 0;
  std::vector<std::string> path_;
};

}  // namespace rig::build
