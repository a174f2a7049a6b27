// SPDX-License-Identifier: Apache-2.0
// What a camera notes in its file (Exif), as far as a picture needs it: which way is up, how long the lens was. Nothing
// else is read: no place, no name, no time.
#pragma once

#include <cstdint>
#include <optional>
#include <string_view>

#include "pictures/picture.hpp"

namespace duskwire::pictures {

struct CameraNote {
  std::uint32_t orientation = 1;           // 1 to 8 as Exif 2.3 table 6 has it; 1: as stored
  std::optional<double> focal_35mm_equiv;  // focal length in mm, as on a 24 mm x 36 mm film
};

// The note in a block of Exif (TIFF 6.0) bytes, with or without "Exif\0\0" before it. What is broken is left out.
[[nodiscard]] CameraNote read_exif(std::string_view block);

// The Exif block within a file of each kind; empty where there is none.
[[nodiscard]] std::string_view exif_in_jpeg(std::string_view file);
[[nodiscard]] std::string_view exif_in_png(std::string_view file);
[[nodiscard]] std::string_view exif_in_webp(std::string_view file);

// Turned and mirrored so that it stands upright.
[[nodiscard]] Picture upright(Picture picture, std::uint32_t orientation);

// Focal length in elements of a picture of this size, of the whole frame of its camera. The equivalent keeps the angle
// over the diagonal, 43.27 mm on film (common practice of makers; Exif itself does not say which angle, from memory).
[[nodiscard]] double focal_px(double focal_35mm_equiv, double width_px, double height_px);

}  // namespace duskwire::pictures
