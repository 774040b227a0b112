#include "build/document_internal.h"
#include "build/read.h"
#include "build/tree_internal.h"

namespace rig::build {
namespace {

constexpr std::size_t kIndent = 2;
/// A list or group stays on one line while the line is no longer than this.
constexpr std::size_t kLongestLine = 140;

/// Appends a value on one line; false, with `out` in any state, if that makes it longer than
/// `limit`.
bool append_on_one_line(const Node& node, std::string& out, std::size_t limit) {
  bool fits = true;
  if (node.kind == Kind::kArray) {
    out += '[';
    for (std::size_t i = 0; i < node.elements.size() && fits; ++i) {
      if (i > 0) out += ", ";
      fits = append_on_one_line(node.elements[i], out, limit);
    }
    out += ']';
  } else if (node.kind == Kind::kObject) {
    out += '{';
    for (std::size_t i = 0; i < node.members.size() && fits; ++i) {
      if (i > 0) out += ", ";
      out += quote(node.members[i].key) + ": ";
      fits = append_on_one_line(node.members[i].value, out, limit);
    }
    out += '}';
  } else {
    out += node.raw;
  }
  return fits && out.size() <= limit;
}

class Writer {
 public:
  std::string write(const Node& root) {
    append(root, 0);
    out_ += '\n';
    return std::move(out_);
  }

 private:
  /// `depth`: of the line the value begins on.
  void append(const Node& node, std::size_t depth) {
    const bool array = node.kind == Kind::kArray;
    if ((!array && node.kind != Kind::kObject) || (node.elements.empty() && node.members.empty())) {
      append_on_one_line(node, out_, std::string::npos);
      return;
    }
    if (node.one_line) {
      const std::size_t line_start = out_.rfind('\n') + 1;  // 0 if there is none: npos + 1
      const std::size_t before = out_.size();
      // One place is kept for the comma behind it.
      if (append_on_one_line(node, out_, line_start + kLongestLine - 1)) return;
      out_.resize(before);
    }
    out_ += array ? '[' : '{';
    for (const Node& element : node.elements) {
      start_item(&element != &node.elements.front(), depth + 1);
      append(element, depth + 1);
    }
    for (const Member& member : node.members) {
      start_item(&member != &node.members.front(), depth + 1);
      out_ += quote(member.key) + ": ";
      append(member.value, depth + 1);
    }
    start_item(false, depth);
    out_ += array ? ']' : '}';
  }

  void start_item(bool comma, std::size_t depth) {
    if (comma) out_ += ',';
    out_ += '\n';
    out_.append(kIndent * depth, ' ');
  }

  std::string out_;
};

}  // namespace

std::string write_compact(const Node& node) {
  std::string out;
  append_on_one_line(node, out, std::string::npos);
  return out;
}

std::string write_build(const Document& document) { return Writer().write(document.root()); }

}  // namespace rig::build
