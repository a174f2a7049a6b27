// SPDX-License-Identifier: Apache-2.0
#include "light/area_source.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "light/unshadowed.hpp"

namespace duskwire::light {
namespace {

Lamp part_of(const Lamp& lamp, const LampFrame& frame, double along_m, double across_m, int parts) {
  Lamp part = lamp;
  part.position = lamp.position + along_m * frame.x + across_m * frame.y;
  part.share = lamp.share / parts;
  return part;
}

}  // namespace

std::vector<Lamp> spread_over_rectangle(const Lamp& lamp, double along_m, double across_m, int count_along,
                                        int count_across) {
  const int along = std::max(1, count_along);
  const int across = std::max(1, count_across);
  const LampFrame frame = lamp_frame(lamp);
  std::vector<Lamp> parts;
  parts.reserve(static_cast<std::size_t>(along * across));
  for (int i = 0; i < along; ++i) {
    for (int j = 0; j < across; ++j) {
      parts.push_back(part_of(lamp, frame, along_m * ((i + 0.5) / along - 0.5), across_m * ((j + 0.5) / across - 0.5),
                              along * across));
    }
  }
  return parts;
}

std::vector<Lamp> spread_over_disk(const Lamp& lamp, double diameter_m, int rings) {
  const int count = std::max(1, rings);
  const LampFrame frame = lamp_frame(lamp);
  std::vector<Lamp> parts;
  parts.reserve(static_cast<std::size_t>(3 * count * count));
  for (int ring = 0; ring < count; ++ring) {
    // Ring k of n has 2k + 1 of n^2 parts of the area.
    const double radius_m = diameter_m / 2 * (ring + 0.5) / count;
    const int around = 3 * (2 * ring + 1);
    for (int i = 0; i < around; ++i) {
      const double turn_rad = 2 * std::numbers::pi * i / around;
      parts.push_back(
          part_of(lamp, frame, radius_m * std::cos(turn_rad), radius_m * std::sin(turn_rad), 3 * count * count));
    }
  }
  return parts;
}

}  // namespace duskwire::light
