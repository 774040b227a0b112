#include <fmt/format.h>

#include <algorithm>
#include <unordered_set>

#include "build/document_internal.h"
#include "build/scanner_internal.h"

namespace rig::build {
namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_'; }

/// A number by JSON's grammar: -? (0 | [1-9][0-9]*) (. [0-9]+)? ([eE] [+-]? [0-9]+)?
bool is_json_number(std::string_view token) {
  std::size_t i = 0;
  const auto at = [&](char c) { return i < token.size() && token[i] == c; };
  const auto skip_digits = [&] {
    const std::size_t start = i;
    while (i < token.size() && is_digit(token[i])) ++i;
    return i - start;
  };
  if (at('-')) ++i;
  const bool leading_zero = at('0');
  const std::size_t whole = skip_digits();
  if (whole == 0 || (leading_zero && whole > 1)) return false;
  if (at('.')) {
    ++i;
    if (skip_digits() == 0) return false;
  }
  if (at('e') || at('E')) {
    ++i;
    if (at('+') || at('-')) ++i;
    if (skip_digits() == 0) return false;
  }
  return i == token.size();
}

bool means_not_a_number(std::string_view bare) {
  std::string small(bare);
  std::transform(small.begin(), small.end(), small.begin(),
                 [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c; });
  if (!small.empty() && (small[0] == '-' || small[0] == '+')) small.erase(0, 1);
  return small == "nan" || small == "inf" || small == "infinity";
}

class Parser {
 public:
  Parser(std::string_view text, Faults& faults) : scanner_(text, faults) {}

  std::optional<Node> read() {
    if (is_utf16()) return stop("the file is saved as UTF-16", "save it with the encoding UTF-8");
    skip_mark();
    scanner_.skip_blanks();
    if (scanner_.at_end()) {
      return stop("the file is empty", R"(begin with {"version": 1, "name": "..."})");
    }
    Node root;
    if (!read_value(root)) return std::nullopt;
    scanner_.skip_blanks();
    if (!scanner_.at_end()) {
      return stop(fmt::format("{} stands after the end of the build", scanner_.here()),
                  "one pair of brackets { } holds the whole file; check where it closes");
    }
    return root;
  }

 private:
  bool is_utf16() const {
    const char first = scanner_.peek();
    const char second = scanner_.peek(1);
    return (first == '\xFF' && second == '\xFE') || (first == '\xFE' && second == '\xFF');
  }

  void skip_mark() {
    if (scanner_.peek() == '\xEF' && scanner_.peek(1) == '\xBB' && scanner_.peek(2) == '\xBF') {
      scanner_.skip(3);
    }
  }

  std::nullopt_t stop(std::string message, std::string remedy) {
    scanner_.fault(scanner_.position(), std::move(message), std::move(remedy));
    return std::nullopt;
  }

  // Each reader below is false once there is no going on.

  bool read_value(Node& node) {
    if (scanner_.full()) return false;
    node.at = scanner_.position();
    const char c = scanner_.peek();
    if (c == '{' || c == '[') {
      if (scanner_.depth() >= kDeepest) {
        scanner_.fault(node.at, fmt::format("brackets are nested {} deep", kDeepest + 1),
                       "a build file needs no more than eight", "build.too_deep");
        return false;
      }
      const bool read = c == '{' ? read_object(node) : read_array(node);
      node.one_line = scanner_.position().line == node.at.line;
      return read;
    }
    if (c == '"') {
      auto string = scanner_.read_string();
      if (!string) return false;
      node.kind = Kind::kString;
      node.raw = std::move(string->raw);
      node.text = std::move(string->text);
      return true;
    }
    return read_bare_value(node);
  }

  bool read_bare_value(Node& node) {
    const std::string_view token = scanner_.read_token();
    if (token == "true" || token == "false" || token == "null" || is_json_number(token)) {
      if (at_value_end()) {
        node.kind = token == "null"                       ? Kind::kNull
                    : token == "true" || token == "false" ? Kind::kBoolean
                                                          : Kind::kNumber;
        node.raw = token;
        return true;
      }
    }
    scanner_.return_to(token);
    const std::string_view bare = scanner_.read_bare();
    if (bare.empty()) {
      stop(fmt::format("{} stands where a value should", scanner_.here()),
           "give a value, such as \"12 in\", or leave the key out");
      return !scanner_.at_end();
    }
    if (means_not_a_number(bare)) {
      scanner_.fault(node.at, fmt::format("{} is not a value", shown(bare)),
                     "leave the key out, or write null, while the value is not known");
    } else {
      scanner_.fault(node.at, fmt::format("{} is not in double quotes", shown(bare)),
                     "put text, and a quantity with its unit, in straight double quotes");
    }
    return true;
  }

  /// Whether a bare value ends here; if not, it goes on with a space, as in `41 5/8 in`.
  bool at_value_end() {
    std::size_t ahead = 0;
    while (scanner_.peek(ahead) == ' ' || scanner_.peek(ahead) == '\t') ++ahead;
    const char next = scanner_.peek(ahead);
    constexpr std::string_view kEnds = ",{}[]\"\n\r#";
    if (next == '\0' || kEnds.find(next) != std::string_view::npos) return true;
    return next == '/' && (scanner_.peek(ahead + 1) == '/' || scanner_.peek(ahead + 1) == '*');
  }

  bool read_array(Node& node) {
    node.kind = Kind::kArray;
    scanner_.skip(1);
    for (;;) {
      scanner_.skip_blanks();
      if (scanner_.peek() == ']') {
        if (!node.elements.empty()) report_comma_too_many();
        break;
      }
      if (scanner_.at_end()) return stop_unclosed(node, ']');
      scanner_.enter(std::to_string(node.elements.size()));
      const bool read = read_value(node.elements.emplace_back());
      scanner_.leave();
      if (!read) return false;
      const Next next = read_separator(node, ']');
      if (next == Next::kEnd) break;
      if (next == Next::kStop) return false;
    }
    scanner_.skip(1);
    return true;
  }

  bool read_object(Node& node) {
    node.kind = Kind::kObject;
    std::unordered_set<std::string> keys;
    scanner_.skip(1);
    for (;;) {
      scanner_.skip_blanks();
      if (scanner_.peek() == '}') {
        if (!node.members.empty()) report_comma_too_many();
        break;
      }
      if (scanner_.at_end()) return stop_unclosed(node, '}');
      if (!read_member(node, keys)) return false;
      const Next next = read_separator(node, '}');
      if (next == Next::kEnd) break;
      if (next == Next::kStop) return false;
    }
    scanner_.skip(1);
    return true;
  }

  bool read_member(Node& node, std::unordered_set<std::string>& keys) {
    Member member;
    member.key_at = scanner_.position();
    if (!read_key(member.key)) return false;
    scanner_.enter(member.key);
    const bool read = read_colon() && read_value(member.value);
    if (read && !keys.insert(member.key).second) {
      scanner_.fault(member.key_at,
                     fmt::format("{} stands here a second time, first on line {}",
                                 shown(member.key), node.find(member.key)->key_at.line),
                     "keep one of the two", "build.duplicate_key");
    } else if (read) {
      node.members.push_back(std::move(member));
    }
    scanner_.leave();
    return read;
  }

  bool read_key(std::string& key) {
    if (scanner_.peek() == '"') {
      auto string = scanner_.read_string();
      if (string) key = std::move(string->text);
      return string.has_value();
    }
    if (!is_letter(scanner_.peek())) {
      stop(fmt::format("{} stands where a key should", scanner_.here()),
           "write a key in straight double quotes, a colon and its value");
      return false;
    }
    const TextPosition at = scanner_.position();
    key = scanner_.read_token();
    scanner_.fault(at, fmt::format("the key {} is not in double quotes", shown(key)),
                   fmt::format("write \"{}\":", key));
    return true;
  }

  bool read_colon() {
    scanner_.skip_blanks();
    if (scanner_.peek() != ':') {
      stop(fmt::format("{} stands where a colon should, after a key", scanner_.here()),
           "write a colon between a key and its value");
      return false;
    }
    scanner_.skip(1);
    scanner_.skip_blanks();
    return true;
  }

  static Kind last_kind(const Node& container) {
    if (!container.elements.empty()) return container.elements.back().kind;
    return container.members.empty() ? Kind::kNull : container.members.back().value.kind;
  }

  enum class Next { kItem, kEnd, kStop };

  /// After an item: the comma before the next one or the closing bracket, which is left standing.
  Next read_separator(const Node& container, char closing) {
    const TextPosition after_item = scanner_.position();
    if (scanner_.peek() == '"' && last_kind(container) == Kind::kString) {
      scanner_.fault(after_item, "a second double quote stands at the end of a text",
                     "write an inch mark inside of text as in or as \\\"");
      scanner_.skip(1);
    }
    scanner_.skip_blanks();
    const char c = scanner_.peek();
    if (c == ',') {
      scanner_.skip(1);
      return Next::kItem;
    }
    if (c == closing) return Next::kEnd;
    if (scanner_.at_end()) {
      stop_unclosed(container, closing);
      return Next::kStop;
    }
    const bool starts_item = c == '"' || is_letter(c) ||
                             (closing == ']' && (c == '{' || c == '[' || c == '-' || is_digit(c)));
    if (!starts_item) {
      stop(fmt::format("{} stands where a comma or {} should", scanner_.here(), closing),
           fmt::format("the bracket to close was opened on line {}", container.at.line));
      return Next::kStop;
    }
    scanner_.fault(after_item, "a comma is missing here", "put a comma between two items");
    return scanner_.full() ? Next::kStop : Next::kItem;
  }

  void report_comma_too_many() {
    scanner_.fault(scanner_.position(), "a comma stands before this closing bracket",
                   "take away the comma after the last item");
  }

  bool stop_unclosed(const Node& container, char closing) {
    stop(fmt::format("the text ends before the {} that closes line {}", closing, container.at.line),
         "the end of the file is missing, or a closing bracket is");
    return false;
  }

  Scanner scanner_;
};

}  // namespace

std::optional<Node> parse_json(std::string_view text, Faults& faults) {
  return Parser(text, faults).read();
}

}  // namespace rig::build
