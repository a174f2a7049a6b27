// SPDX-License-Identifier: Apache-2.0
#include "cli/qr_text.hpp"

#include <qrencode.h>

#include <memory>

namespace duskwire::cli {
namespace {

// ISO/IEC 18004 asks for four modules of quiet around the code (from memory).
constexpr int quiet = 4;

}  // namespace

std::string qr_text(const std::string& text, const TextStyle& style) {
  const std::unique_ptr<QRcode, void (*)(QRcode*)> code(QRcode_encodeString8bit(text.c_str(), 0, QR_ECLEVEL_M),
                                                        QRcode_free);
  if (!code) return "";
  const int side = code->width;
  const auto light = [&](int row, int column) {
    if (row < 0 || column < 0 || row >= side || column >= side) return row < side + quiet;
    return (code->data[row * side + column] & 1u) == 0;
  };
  std::string lines;
  for (int row = -quiet; row < side + quiet; row += 2) {
    if (style.colour) lines += "\x1b[97;40m";
    for (int column = -quiet; column < side + quiet; ++column) {
      const bool upper = light(row, column);
      const bool lower = light(row + 1, column);
      lines += upper ? (lower ? "█" : "▀") : (lower ? "▄" : " ");
    }
    lines += style.colour ? "\x1b[0m\n" : "\n";
  }
  return lines;
}

}  // namespace duskwire::cli
