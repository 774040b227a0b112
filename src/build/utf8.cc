#include <algorithm>

#include "build/utf8_internal.h"

namespace rig::build {
namespace {

struct Lead {
  unsigned char first, last;  ///< Range of the first byte.
  unsigned char second_min, second_max;
  std::size_t length;
};

// Unicode 15, table 3-7, rows of more than one byte; further bytes are 80..BF.
constexpr Lead kLeads[] = {{0xC2, 0xDF, 0x80, 0xBF, 2}, {0xE0, 0xE0, 0xA0, 0xBF, 3},
                           {0xE1, 0xEC, 0x80, 0xBF, 3}, {0xED, 0xED, 0x80, 0x9F, 3},
                           {0xEE, 0xEF, 0x80, 0xBF, 3}, {0xF0, 0xF0, 0x90, 0xBF, 4},
                           {0xF1, 0xF3, 0x80, 0xBF, 4}, {0xF4, 0xF4, 0x80, 0x8F, 4}};

bool is_continuation(char byte) { return (static_cast<unsigned char>(byte) & 0xC0U) == 0x80U; }

}  // namespace

std::size_t utf8_length(std::string_view text) {
  if (text.empty()) return 0;
  const auto first = static_cast<unsigned char>(text[0]);
  if (first < 0x80) return 1;
  for (const Lead& lead : kLeads) {
    if (first < lead.first || first > lead.last) continue;
    if (text.size() < lead.length) return 0;
    const auto second = static_cast<unsigned char>(text[1]);
    if (second < lead.second_min || second > lead.second_max) return 0;
    const std::string_view rest = text.substr(2, lead.length - 2);
    return std::all_of(rest.begin(), rest.end(), is_continuation) ? lead.length : 0;
  }
  return 0;
}

void append_utf8(std::string& out, std::uint32_t code_point) {
  const auto put = [&](std::uint32_t byte) { out += static_cast<char>(byte); };
  const auto put_rest = [&](int shift) { put(0x80U | ((code_point >> shift) & 0x3FU)); };
  if (code_point < 0x80) {
    put(code_point);
  } else if (code_point < 0x800) {
    put(0xC0U | (code_point >> 6));
    put_rest(0);
  } else if (code_point < 0x10000) {
    put(0xE0U | (code_point >> 12));
    put_rest(6);
    put_rest(0);
  } else {
    put(0xF0U | (code_point >> 18));
    put_rest(12);
    put_rest(6);
    put_rest(0);
  }
}

std::size_t count_characters(std::string_view text) {
  return static_cast<std::size_t>(
      std::count_if(text.begin(), text.end(), [](char byte) { return !is_continuation(byte); }));
}

}  // namespace rig::build
