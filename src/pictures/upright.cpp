// SPDX-License-Identifier: Apache-2.0
// The eight orientations of Exif: the stored picture's row 0 and column 0 lie at the top, right, bottom or left.
#include <utility>

#include "pictures/camera_note.hpp"

namespace duskwire::pictures {

Picture upright(Picture picture, std::uint32_t orientation) {
  if (orientation < 2 || orientation > 8) return picture;
  const bool swaps_sides = orientation >= 5;
  // Exif 2.3 table 6: 2 and 3 mirror columns, 3 and 4 rows; 5 to 8 do the same to a picture turned over its diagonal.
  const bool from_right = orientation == 2 || orientation == 3 || orientation == 7 || orientation == 8;
  const bool from_bottom = orientation == 3 || orientation == 4 || orientation == 6 || orientation == 7;
  Picture out{swaps_sides ? picture.height_px : picture.width_px, swaps_sides ? picture.width_px : picture.height_px,
              picture.channels, std::vector<std::uint8_t>(picture.elements.size())};
  const std::size_t channels = picture.channels;
  std::uint8_t* to = out.elements.data();
  for (std::size_t y = 0; y < out.height_px; ++y) {
    for (std::size_t x = 0; x < out.width_px; ++x) {
      std::size_t column = swaps_sides ? y : x;
      std::size_t row = swaps_sides ? x : y;
      if (from_right) column = picture.width_px - 1 - column;
      if (from_bottom) row = picture.height_px - 1 - row;
      const std::uint8_t* from = &picture.elements[(row * picture.width_px + column) * channels];
      for (std::size_t c = 0; c < channels; ++c) *to++ = from[c];
    }
  }
  return out;
}

}  // namespace duskwire::pictures
