#pragma once

#include <string>

namespace rig::serve {

/// A QR code (ISO/IEC 18004) of a text in half-block characters, two modules a character, with its
/// quiet zone; for a terminal of either colour. Empty when the text is too long for one.
std::string code_picture(const std::string& text);

}  // namespace rig::serve
