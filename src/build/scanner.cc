#include <fmt/format.h>

#include <algorithm>

#include "build/document_internal.h"
#include "build/scanner_internal.h"
#include "build/utf8_internal.h"

namespace rig::build {
namespace {

constexpr std::string_view kReplacement = "\xEF\xBF\xBD";  // U+FFFD

bool is_token(char byte) {
  return (byte >= '0' && byte <= '9') || (byte >= 'a' && byte <= 'z') ||
         (byte >= 'A' && byte <= 'Z') || byte == '_' || byte == '+' || byte == '-' || byte == '.';
}

bool is_high_surrogate(std::uint32_t unit) { return unit >= 0xD800 && unit <= 0xDBFF; }
bool is_low_surrogate(std::uint32_t unit) { return unit >= 0xDC00 && unit <= 0xDFFF; }

}  // namespace

std::string Scanner::here() const {
  if (at_end()) return "the end of the text";
  const std::string_view rest = text_.substr(offset_);
  return shown(rest.substr(0, std::max<std::size_t>(1, utf8_length(rest))));
}

void Scanner::skip_blanks() {
  while (!at_end()) {
    const char c = peek();
    if (c == '\n') {
      ++offset_;
      ++line_;
      line_start_ = offset_;
    } else if (c == ' ' || c == '\t' || c == '\r') {
      ++offset_;
    } else if (c == '#' || (c == '/' && (peek(1) == '/' || peek(1) == '*'))) {
      fault(position(), "a comment can't stand here", R"(put it in a "note" or "label")");
      c == '/' && peek(1) == '*' ? skip_block_comment() : skip_line();
    } else {
      return;
    }
  }
}

void Scanner::skip_line() {
  while (!at_end() && peek() != '\n') ++offset_;
}

void Scanner::skip_block_comment() {
  offset_ += 2;
  while (!at_end() && !(peek() == '*' && peek(1) == '/')) {
    if (peek() == '\n') {
      ++line_;
      line_start_ = offset_ + 1;
    }
    ++offset_;
  }
  offset_ = std::min(offset_ + 2, text_.size());
}

std::string_view Scanner::read_token() {
  const std::size_t start = offset_;
  while (is_token(peek())) ++offset_;
  return text_.substr(start, offset_ - start);
}

std::string_view Scanner::read_bare() {
  constexpr std::string_view kEnds = ",{}[]\"\n\r";
  const std::size_t start = offset_;
  while (!at_end() && kEnds.find(peek()) == std::string_view::npos) ++offset_;
  std::string_view bare = text_.substr(start, offset_ - start);
  while (!bare.empty() && (bare.back() == ' ' || bare.back() == '\t')) bare.remove_suffix(1);
  return bare;
}

void Scanner::fault(TextPosition at, std::string message, std::string remedy,
                    std::string_view code) {
  std::string path;
  for (const std::string& step : path_) path.append(1, '/').append(escape_pointer(step));
  faults_.add(code, std::move(path), at, std::move(message), std::move(remedy));
}

std::optional<Scanner::String> Scanner::read_string() {
  const std::size_t start = offset_;
  const TextPosition opening = position();
  String string;
  ++offset_;
  for (;;) {
    // Plain ASCII, nearly all there is, is taken over in one go.
    const std::size_t run = offset_;
    while (offset_ < text_.size() && text_[offset_] != '"' && text_[offset_] != '\\' &&
           !is_control(text_[offset_]) && static_cast<unsigned char>(text_[offset_]) < 0x80) {
      ++offset_;
    }
    string.text += text_.substr(run, offset_ - run);

    if (at_end() || peek() == '\n') {
      fault(opening, "the text that begins here has no closing quote on its line",
            "end it with a double quote; write an inch mark inside as \\\" or as in");
      return std::nullopt;
    }
    const char c = peek();
    if (c == '"') break;
    if (c == '\\') {
      read_escape(string);
    } else if (is_control(c)) {
      // JSON allows DEL; the texts of a build don't, and say so when they are read.
      if (c != 0x7F) {
        fault(position(), "a tab or another control character stands inside text",
              "write a space; a tab is written \\t");
      }
      string.text += c;
      ++offset_;
    } else if (const std::size_t length = utf8_length(text_.substr(offset_)); length > 0) {
      string.text += text_.substr(offset_, length);
      offset_ += length;
    } else {
      fault(position(), fmt::format("byte {:02X} is not UTF-8 text", static_cast<unsigned char>(c)),
            "save the file with the encoding UTF-8");
      string.text += kReplacement;
      ++offset_;
    }
    if (full()) return std::nullopt;
  }
  ++offset_;
  string.raw = text_.substr(start, offset_ - start);
  return string;
}

void Scanner::read_escape(String& string) {
  constexpr std::string_view kLetters = "\"\\/bfnrt";
  constexpr std::string_view kMeanings = "\"\\/\b\f\n\r\t";
  const TextPosition at = position();
  ++offset_;
  const auto index = at_end() ? std::string_view::npos : kLetters.find(peek());
  if (index != std::string_view::npos) {
    string.text += kMeanings[index];
    ++offset_;
    return;
  }
  if (peek() == 'u') {
    ++offset_;
    auto unit = read_four_hex();
    if (unit && is_high_surrogate(*unit) && peek() == '\\' && peek(1) == 'u') {
      offset_ += 2;
      const auto low = read_four_hex();
      if (low && is_low_surrogate(*low)) {
        unit = 0x10000U + ((*unit - 0xD800U) << 10U) + (*low - 0xDC00U);
      }
    }
    if (unit && !is_high_surrogate(*unit) && !is_low_surrogate(*unit)) {
      append_utf8(string.text, *unit);
      return;
    }
  }
  string.text += kReplacement;
  fault(at, "a backslash here doesn't begin one of the characters that can be written with it",
        R"(write \\ for a backslash, \" for an inch mark, \u and four digits for a character)");
}

std::optional<std::uint32_t> Scanner::read_four_hex() {
  std::uint32_t unit = 0;
  for (int i = 0; i < 4; ++i) {
    const char c = peek();
    std::uint32_t digit = 0;
    if (c >= '0' && c <= '9') {
      digit = static_cast<std::uint32_t>(c - '0');
    } else if (c >= 'a' && c <= 'f') {
      digit = static_cast<std::uint32_t>(c - 'a' + 10);
    } else if (c >= 'A' && c <= 'F') {
      digit = static_cast<std::uint32_t>(c - 'A' + 10);
    } else {
      return std::nullopt;
    }
    unit = unit * 16 + digit;
    ++offset_;
  }
  return unit;
}

}  // namespace rig::build
