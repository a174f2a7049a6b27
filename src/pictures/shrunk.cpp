// SPDX-License-Identifier: Apache-2.0
// Shrinking by area, in linear light. Rows first, then columns, with the shares of elements that a border cuts.
#include <algorithm>
#include <array>
#include <cmath>

#include "pictures/picture.hpp"

namespace duskwire::pictures {
namespace {

// IEC 61966-2-1, 5.2: sRGB code value to linear light, and back.
double linear_from_code(int code) {
  const double v = code / 255.0;
  return v <= 0.04045 ? v / 12.92 : std::pow((v + 0.055) / 1.055, 2.4);
}

std::uint8_t code_from_linear(double light) {
  const double v = light <= 0.0031308 ? 12.92 * light : 1.055 * std::pow(light, 1 / 2.4) - 0.055;
  return static_cast<std::uint8_t>(std::lround(255 * std::clamp(v, 0.0, 1.0)));
}

const std::array<float, 256>& linear_table() {
  static const auto table = [] {
    std::array<float, 256> made{};
    for (int code = 0; code < 256; ++code)
      made[static_cast<std::size_t>(code)] = static_cast<float>(linear_from_code(code));
    return made;
  }();
  return table;
}

// Which old elements a new one covers, and how much of the first and the last.
struct Cover {
  std::size_t first = 0;
  std::size_t last = 0;
  float first_share = 1;
  float last_share = 1;
};

std::vector<Cover> covers(std::uint32_t old_count, std::uint32_t new_count) {
  std::vector<Cover> all(new_count);
  const double step = static_cast<double>(old_count) / new_count;
  for (std::uint32_t i = 0; i < new_count; ++i) {
    const double begin = i * step;
    const double end = std::min<double>(old_count, (i + 1) * step);
    Cover& cover = all[i];
    cover.first = static_cast<std::size_t>(begin);
    cover.last = std::min<std::size_t>(static_cast<std::size_t>(std::ceil(end)), old_count) - 1;
    cover.first_share = static_cast<float>(static_cast<double>(cover.first) + 1 - begin);
    cover.last_share = static_cast<float>(end - static_cast<double>(cover.last));
    if (cover.first == cover.last) cover.first_share = cover.last_share = static_cast<float>(end - begin);
  }
  return all;
}

float share_of(const Cover& cover, std::size_t at) {
  if (at == cover.first) return cover.first_share;
  return at == cover.last ? cover.last_share : 1.0f;
}

}  // namespace

Picture opaque(const Picture& picture) {
  if (picture.channels == 3) return picture;
  Picture out{picture.width_px, picture.height_px, 3, {}};
  out.elements.reserve(bytes_of(picture.width_px, picture.height_px, 3));
  for (std::size_t at = 0; at + 3 < picture.elements.size(); at += 4) {
    const int opacity = picture.elements[at + 3];
    for (std::size_t c = 0; c < 3; ++c) {
      const int value = picture.elements[at + c] * opacity + 255 * (255 - opacity);
      out.elements.push_back(static_cast<std::uint8_t>((value + 127) / 255));
    }
  }
  return out;
}

Picture shrunk(const Picture& picture, std::uint32_t width_px, std::uint32_t height_px) {
  width_px = std::clamp(width_px, 1u, std::max(1u, picture.width_px));
  height_px = std::clamp(height_px, 1u, std::max(1u, picture.height_px));
  if (width_px == picture.width_px && height_px == picture.height_px) return picture;
  const Picture from = opaque(picture);
  const std::vector<Cover> columns = covers(from.width_px, width_px);
  const std::vector<Cover> rows = covers(from.height_px, height_px);
  const auto& linear = linear_table();
  const float per_area = static_cast<float>(width_px) * static_cast<float>(height_px) /
                         (static_cast<float>(from.width_px) * static_cast<float>(from.height_px));
  Picture out{width_px, height_px, 3, std::vector<std::uint8_t>(bytes_of(width_px, height_px, 3))};
  std::vector<float> sum(std::size_t{width_px} * 3);
  for (std::uint32_t y = 0; y < height_px; ++y) {
    std::fill(sum.begin(), sum.end(), 0.0f);
    for (std::size_t row = rows[y].first; row <= rows[y].last; ++row) {
      const float row_share = share_of(rows[y], row);
      const std::uint8_t* line = &from.elements[row * from.width_px * 3];
      for (std::uint32_t x = 0; x < width_px; ++x) {
        for (std::size_t column = columns[x].first; column <= columns[x].last; ++column) {
          const float share = row_share * share_of(columns[x], column);
          for (std::size_t c = 0; c < 3; ++c) sum[std::size_t{x} * 3 + c] += share * linear[line[column * 3 + c]];
        }
      }
    }
    for (std::size_t i = 0; i < sum.size(); ++i) {
      out.elements[y * sum.size() + i] = code_from_linear(static_cast<double>(sum[i] * per_area));
    }
  }
  return out;
}

Picture opaque_within(const Picture& picture, std::uint32_t most_width_px) {
  Picture made = opaque(picture);
  if (most_width_px == 0 || made.width_px <= most_width_px) return made;
  const double share = static_cast<double>(most_width_px) / made.width_px;
  const auto height_px = static_cast<std::uint32_t>(std::max(1L, std::lround(share * made.height_px)));
  return shrunk(made, most_width_px, height_px);
}

}  // namespace duskwire::pictures
