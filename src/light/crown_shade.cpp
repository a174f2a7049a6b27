// SPDX-License-Identifier: Apache-2.0
#include "light/crown_shade.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>

namespace duskwire::light {

using geometry::Point3;
using geometry::Vec3;

namespace {

bool usable(const Crown& crown) { return crown.half_width_m > 0 && crown.half_height_m > 0; }

// The crown as a ball of radius 1 around the origin. Straight ways stay straight, and shares along them stay the same.
Vec3 in_unit_ball(const Crown& crown, Point3 place) {
  const Vec3 from_centre = place - crown.centre;
  return {from_centre.x / crown.half_width_m, from_centre.y / crown.half_width_m, from_centre.z / crown.half_height_m};
}

// Which of the block's ways may meet the crown: most do not, and the exact reckoning, which decides,
// is dear.
void find_meetings(const Crown& crown, Point3 from, const ReceiverBlock& block,
                   std::array<std::uint8_t, ReceiverBlock::capacity>& meets) {
  const Vec3 start = in_unit_ball(crown, from);
  const Vec3 base = in_unit_ball(crown, block.base) - start;
  const auto sx = static_cast<float>(start.x);
  const auto sy = static_cast<float>(start.y);
  const auto sz = static_cast<float>(start.z);
  const auto bx = static_cast<float>(base.x);
  const auto by = static_cast<float>(base.y);
  const auto bz = static_cast<float>(base.z);
  const auto per_width = static_cast<float>(1 / crown.half_width_m);
  const auto per_height = static_cast<float>(1 / crown.half_height_m);
  const float ss = sx * sx + sy * sy + sz * sz;
  // More than what the difference below loses in single precision.
  const float near_ball = 1.001F + 1e-6F * ss;
  for (std::size_t i = 0; i < ReceiverBlock::capacity; ++i) {
    const float wx = bx + per_width * block.x_m[i];
    const float wy = by + per_width * block.y_m[i];
    const float wz = bz + per_height * block.z_m[i];
    const float along = sx * wx + sy * wy + sz * wz;
    const float square = wx * wx + wy * wy + wz * wz;
    // |start|^2 - (start . way)^2 / |way|^2 is the square of the least distance.
    meets[i] = (ss * square - along * along <= near_ball * square) ? 1 : 0;
  }
}

}  // namespace

double crown_share(const Crown& crown, Point3 from, Point3 to) {
  if (!usable(crown)) return 1;
  const Vec3 start = in_unit_ball(crown, from);
  const Vec3 way = in_unit_ball(crown, to) - start;
  const double square = dot(way, way);
  if (!(square > 0)) return 1;
  // |start + t way| = 1: t = middle -+ half.
  const double middle = -dot(start, way) / square;
  const Vec3 nearest = start + middle * way;
  const double inside = 1 - dot(nearest, nearest);
  if (inside <= 0) return 1;
  const double half = std::sqrt(inside / square);
  const double enter = std::max(0.0, middle - half);
  const double leave = std::min(1.0, middle + half);
  if (leave <= enter) return 1;
  // The ball is 2 across: a chord's share of the full width is its length there over 2.
  const double of_width = (leave - enter) * std::sqrt(square) / 2;
  return std::pow(std::clamp(crown.transmittance, 0.0, 1.0), of_width);
}

bool crown_near(const Crown& crown, Point3 from, Point3 to, double radius_m) {
  const Vec3 way = to - from;
  const Vec3 seen = crown.centre - from;
  const double square = dot(way, way);
  const double share = square > 0 ? std::clamp(dot(seen, way) / square, 0.0, 1.0) : 0;
  const Vec3 apart = seen - share * way;
  const double reach_m = radius_m + std::max(crown.half_width_m, crown.half_height_m);
  return dot(apart, apart) <= reach_m * reach_m;
}

void shade_by_crowns(std::span<const Crown> crowns, Point3 from, const ReceiverBlock& block,
                     ReceiverBlock::Numbers& lx) {
  for (const Crown& crown : crowns) {
    if (!usable(crown) || !crown_near(crown, from, block.base, double{block.radius_m})) continue;
    std::array<std::uint8_t, ReceiverBlock::capacity> meets;
    find_meetings(crown, from, block, meets);
    for (std::size_t i = 0; i < block.count; ++i) {
      if (meets[i] == 0 || lx[i] <= 0) continue;
      const Vec3 from_base{double{block.x_m[i]}, double{block.y_m[i]}, double{block.z_m[i]}};
      lx[i] *= static_cast<float>(crown_share(crown, from, block.base + from_base));
    }
  }
}

}  // namespace duskwire::light
