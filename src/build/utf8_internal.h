#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

namespace rig::build {

/// True for the ASCII control characters.
inline bool is_control(char byte) {
  return static_cast<unsigned char>(byte) < 0x20 || byte == 0x7F;
}

/// Bytes of the well-formed UTF-8 character the text starts with (1 to 4); 0 if it starts with
/// none.
/// @source Unicode 15, table 3-7.
std::size_t utf8_length(std::string_view text);

/// Appends a code point as UTF-8. `code_point` is at most 0x10FFFF and no surrogate.
void append_utf8(std::string& out, std::uint32_t code_point);

/// Number of characters (code points) of well-formed UTF-8.
std::size_t count_characters(std::string_view text);

}  // namespace rig::build
