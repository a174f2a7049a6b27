// SPDX-License-Identifier: Apache-2.0
// A picture in memory: 8-bit sRGB, upright, rows from the top.
#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

namespace duskwire::pictures {

struct Picture {
  std::uint32_t width_px = 0;
  std::uint32_t height_px = 0;
  std::uint32_t channels = 3;  // 3: red, green, blue; 4: and how opaque
  std::vector<std::uint8_t> elements;
};

[[nodiscard]] inline std::size_t bytes_of(std::uint32_t width_px, std::uint32_t height_px, std::uint32_t channels) {
  return std::size_t{width_px} * height_px * channels;
}

// An opaque copy: what shines through is taken as white.
[[nodiscard]] Picture opaque(const Picture& picture);

// Smaller, by area: each new element is the mean of the light (not of the code values) that fell on its area, so that
// brightness is kept. A picture that is small enough already comes back as it is.
[[nodiscard]] Picture shrunk(const Picture& picture, std::uint32_t width_px, std::uint32_t height_px);

// Opaque, and shrunk where it is wider than asked; 0: as it is.
[[nodiscard]] Picture opaque_within(const Picture& picture, std::uint32_t most_width_px);

}  // namespace duskwire::pictures
