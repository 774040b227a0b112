#include "serve/code_picture.h"

#include <qrencode.h>

#include <memory>

namespace rig::serve {

std::string code_picture(const std::string& text) {
  constexpr int kQuiet = 4;  // ISO/IEC 18004, 6.3.8.
  const std::unique_ptr<QRcode, void (*)(QRcode*)> code(
      QRcode_encodeString(text.c_str(), 0, QR_ECLEVEL_M, QR_MODE_8, /*casesensitive=*/1),
      QRcode_free);
  if (!code) return {};
  const int width = code->width;
  const auto is_dark = [&](int row, int column) {
    if (row < 0 || column < 0 || row >= width || column >= width) return false;
    return (code->data[row * width + column] & 1U) != 0;
  };
  // Black on white whatever the terminal's own colours are.
  std::string picture;
  for (int row = -kQuiet; row < width + kQuiet; row += 2) {
    picture += "\x1b[30;47m";
    for (int column = -kQuiet; column < width + kQuiet; ++column) {
      const bool upper = is_dark(row, column), lower = is_dark(row + 1, column);
      picture += upper ? (lower ? "\u2588" : "\u2580") : (lower ? "\u2584" : " ");
    }
    picture += "\x1b[0m\n";
  }
  return picture;
}

}  // namespace rig::serve
