#include <algorithm>
#include <array>
#include <cctype>

#include "units/fold_internal.h"

namespace rig::units::internal {
namespace {

constexpr char32_t kBroken = 0xFFFFFFFF;

struct CodePoint {
  char32_t value = kBroken;
  std::size_t size = 1;  ///< Bytes taken; 1 for a broken one.
};

/// The code point at the front of `text`, which is not empty. Overlong forms, surrogates and values
/// past U+10FFFF are broken.
CodePoint decode_front(std::string_view text) {
  const auto byte = [&](std::size_t i) -> char32_t { return static_cast<unsigned char>(text[i]); };
  const char32_t lead = byte(0);
  if (lead < 0x80) return {lead, 1};
  std::size_t size = 0;
  char32_t value = 0;
  char32_t least = 0;
  if (lead >= 0xC2 && lead <= 0xDF) {
    size = 2, value = lead & 0x1F, least = 0x80;
  } else if ((lead & 0xF0) == 0xE0) {
    size = 3, value = lead & 0x0F, least = 0x800;
  } else if (lead >= 0xF0 && lead <= 0xF4) {
    size = 4, value = lead & 0x07, least = 0x10000;
  }
  if (size == 0 || text.size() < size) return {};
  for (std::size_t i = 1; i < size; ++i) {
    if ((byte(i) & 0xC0) != 0x80) return {};
    value = (value << 6) | (byte(i) & 0x3F);
  }
  const bool surrogate = value >= 0xD800 && value <= 0xDFFF;
  if (value < least || value > 0x10FFFF || surrogate) return {};
  return {value, size};
}

struct Replacement {
  char32_t from;
  std::string_view to;
};

constexpr std::array kReplacements{
    // Vulgar fractions stand apart from the digits beside them.
    Replacement{U'½', " 1/2 "},
    Replacement{U'⅓', " 1/3 "},
    Replacement{U'⅔', " 2/3 "},
    Replacement{U'¼', " 1/4 "},
    Replacement{U'¾', " 3/4 "},
    Replacement{U'⅕', " 1/5 "},
    Replacement{U'⅖', " 2/5 "},
    Replacement{U'⅗', " 3/5 "},
    Replacement{U'⅘', " 4/5 "},
    Replacement{U'⅙', " 1/6 "},
    Replacement{U'⅚', " 5/6 "},
    Replacement{U'⅐', " 1/7 "},
    Replacement{U'⅛', " 1/8 "},
    Replacement{U'⅜', " 3/8 "},
    Replacement{U'⅝', " 5/8 "},
    Replacement{U'⅞', " 7/8 "},
    Replacement{U'⅑', " 1/9 "},
    Replacement{U'⅒', " 1/10 "},
    Replacement{U'⅟', " 1/"},
    Replacement{U'⁄', "/"},
    Replacement{U'∕', "/"},
    // Foot and inch marks.
    Replacement{U'′', "'"},
    Replacement{U'‘', "'"},
    Replacement{U'’', "'"},
    Replacement{U'ʹ', "'"},
    Replacement{U'″', "\""},
    Replacement{U'“', "\""},
    Replacement{U'”', "\""},
    Replacement{U'ʺ', "\""},
    // Minus signs, hyphens and dashes.
    Replacement{U'\u2212', "-"},
    Replacement{U'\u2010', "-"},
    Replacement{U'\u2011', "-"},
    Replacement{U'\u2012', "-"},
    Replacement{U'\u2013', "-"},
    Replacement{U'\u2014', "-"},
    // Products, degrees, litres.
    Replacement{U'·', "*"},
    Replacement{U'⋅', "*"},
    Replacement{U'∙', "*"},
    Replacement{U'•', "*"},
    Replacement{U'×', "*"},
    Replacement{U'°', "deg"},
    Replacement{U'º', "deg"},
    Replacement{U'ℓ', "l"},
    // Blanks.
    Replacement{U'\t', " "},
    Replacement{U'\n', " "},
    Replacement{U'\r', " "},
    Replacement{U'\u00A0', " "},
    Replacement{U'\u202F', " "},
    Replacement{U'\u3000', " "},
};

/// The value of a raised or lowered digit, or -1.
int small_digit(char32_t c) {
  if (c == U'¹') return 1;
  if (c == U'²' || c == U'³') return static_cast<int>(c - U'²') + 2;
  if (c == U'⁰' || (c >= U'⁴' && c <= U'⁹')) return static_cast<int>(c - U'⁰');
  if (c >= U'₀' && c <= U'₉') return static_cast<int>(c - U'₀');
  return -1;
}

bool is_digit(char c) { return std::isdigit(static_cast<unsigned char>(c)) != 0; }

/// Appends, joining two foot marks into an inch mark.
void append(std::string& out, std::string_view text) {
  if (text == "'" && !out.empty() && out.back() == '\'') {
    out.back() = '"';
  } else {
    out += text;
  }
}

std::string trimmed(const std::string& text) {
  const std::size_t first = text.find_first_not_of(' ');
  if (first == std::string::npos) return {};
  return text.substr(first, text.find_last_not_of(' ') - first + 1);
}

}  // namespace

std::string fold_to_ascii(std::string_view utf8) {
  std::string out;
  bool after_small_digit = false;
  while (!utf8.empty()) {
    const CodePoint point = decode_front(utf8);
    const char32_t c = point.value;
    utf8.remove_prefix(point.size);
    const int digit = small_digit(c);
    if (digit >= 0) {
      // "41⁵" is forty-one and five over something, not 415.
      if (!after_small_digit && !out.empty() && is_digit(out.back())) out += ' ';
      out += static_cast<char>('0' + digit);
      after_small_digit = true;
      continue;
    }
    after_small_digit = false;
    const auto* known = std::find_if(kReplacements.begin(), kReplacements.end(),
                                     [c](const Replacement& r) { return r.from == c; });
    if (known != kReplacements.end()) {
      append(out, known->to);
    } else if (c >= U'\u2000' && c <= U'\u200A') {
      append(out, " ");
    } else {
      const char plain = c >= 0x20 && c < 0x7F ? static_cast<char>(c) : '?';
      append(out, std::string_view(&plain, 1));
    }
  }
  return trimmed(out);
}

std::string quote_for_message(std::string_view utf8) {
  constexpr int kLongest = 40;
  std::string out = "\"";
  int count = 0;
  while (!utf8.empty() && count < kLongest) {
    const CodePoint point = decode_front(utf8);
    const bool shown = point.value != kBroken && point.value >= 0x20 && point.value != 0x7F;
    out += shown ? utf8.substr(0, point.size) : std::string_view("?");
    utf8.remove_prefix(point.size);
    ++count;
  }
  if (!utf8.empty()) out += "…";
  return out + "\"";
}

}  // namespace rig::units::internal
