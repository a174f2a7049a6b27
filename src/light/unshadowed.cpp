// SPDX-License-Identifier: Apache-2.0
// Written as plain loops over arrays that compilers turn into vector instructions: the angles of all places first, then
// the reading of the table, place by place where the processor cannot gather.
#include "light/unshadowed.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

// The same loops twice, for processors of 2013 and later and for older ones, chosen when the program starts. Not under
// sanitizers: they are not ready when that choice is made.
#if defined(__x86_64__) && defined(__GNUC__) && !defined(__clang__) && defined(NDEBUG)
#define DUSKWIRE_PER_PROCESSOR __attribute__((target_clones("default", "arch=x86-64-v3")))
#else
#define DUSKWIRE_PER_PROCESSOR
#endif

namespace duskwire::light {
namespace {

using geometry::Vec3;
using Numbers = ReceiverBlock::Numbers;

constexpr float deg_per_rad = static_cast<float>(180 / std::numbers::pi);
constexpr float right_angle_rad = static_cast<float>(std::numbers::pi / 2);
constexpr float half_turn_rad = static_cast<float>(std::numbers::pi);
// A millimetre: nearer to a point the law of the point means nothing.
constexpr float nearest_m2 = 1e-6F;

// Abramowitz and Stegun, Handbook of Mathematical Functions, 4.4.49: for q in [0, 1] within 2e-8 rad.
inline float arc_tangent_rad(float q) {
  const float s = q * q;
  float sum = 0.0028662257F;
  sum = sum * s - 0.0161657367F;
  sum = sum * s + 0.0429096138F;
  sum = sum * s - 0.0752896400F;
  sum = sum * s + 0.1065626393F;
  sum = sum * s - 0.1420889944F;
  sum = sum * s + 0.1999355085F;
  sum = sum * s - 0.3333314528F;
  return q + q * s * sum;
}

// From 0 to a half turn; `across` is not negative.
inline float angle_rad(float across, float along) {
  const float size = std::abs(along);
  const float less = across < size ? across : size;
  const float more = across < size ? size : across;
  const float acute = arc_tangent_rad(less / (more + std::numeric_limits<float>::min()));
  const float quarter = across > size ? right_angle_rad - acute : acute;
  return along < 0 ? half_turn_rad - quarter : quarter;
}

struct Ways {
  alignas(64) Numbers gamma_at;  // where in the grid, in entries
  alignas(64) Numbers c_at;      // in planes
  alignas(64) Numbers per_cd;    // lx per cd: cos(i) / r^2, 0 where dark
};

struct Place {
  float x, y, z;
};

Place narrow(Vec3 v) { return {static_cast<float>(v.x), static_cast<float>(v.y), static_cast<float>(v.z)}; }

template <bool all_round>
inline __attribute__((always_inline)) void find_ways(const LampFrame& lamp, const LookupGrid& grid,
                                                     const ReceiverBlock& block, Ways& ways) {
  const Place from = narrow(lamp.position - block.base);
  const Place x_axis = narrow(lamp.x);
  const Place y_axis = narrow(lamp.y);
  const Place aim = narrow(lamp.aim);
  const float scale = static_cast<float>(lamp.share);
  const float per_rad = deg_per_rad * grid.gammas_per_deg;
  const float first = grid.first_gamma_deg * grid.gammas_per_deg;
  const float last_at = static_cast<float>(grid.gammas - 1);
  const float planes_per_rad = deg_per_rad * grid.planes_per_deg;
  const float all_planes = static_cast<float>(grid.planes - 1);
  for (std::size_t i = 0; i < ReceiverBlock::capacity; ++i) {
    const float dx = block.x_m[i] - from.x;
    const float dy = block.y_m[i] - from.y;
    const float dz = block.z_m[i] - from.z;
    const float u = dx * x_axis.x + dy * x_axis.y + dz * x_axis.z;
    const float v = dx * y_axis.x + dy * y_axis.y + dz * y_axis.z;
    const float w = dx * aim.x + dy * aim.y + dz * aim.z;
    const float square = dx * dx + dy * dy + dz * dz;
    const float distance = std::sqrt(square);
    const float towards =
        block.turns[i] * distance - (dx * block.normal_x[i] + dy * block.normal_y[i] + dz * block.normal_z[i]);
    const float at = angle_rad(std::sqrt(u * u + v * v), w) * per_rad - first;
    // A thousandth of a degree of rounding beyond the table's ends is still the table's.
    const float slack = 0.001F * grid.gammas_per_deg;
    const bool lit = (at >= -slack) & (at <= last_at + slack) & (towards > 0) & (square > nearest_m2);
    const float factor = scale * towards / (square * distance + std::numeric_limits<float>::min());
    ways.per_cd[i] = lit ? factor : 0.0F;
    const float at_least = at > 0 ? at : 0.0F;
    ways.gamma_at[i] = at_least < last_at ? at_least : last_at;
    if constexpr (!all_round) {
      const float half = angle_rad(std::abs(v), u) * planes_per_rad;
      ways.c_at[i] = v < 0 ? all_planes - half : half;
    }
  }
}

DUSKWIRE_PER_PROCESSOR
void all_round_lx(const LampFrame& lamp, const LookupGrid& grid, const ReceiverBlock& block, Numbers& out_lx) {
  Ways ways;
  find_ways<true>(lamp, grid, block, ways);
  const float* table = grid.intensity_cd.data();
  for (std::size_t i = 0; i < ReceiverBlock::capacity; ++i) {
    const int index = static_cast<int>(ways.gamma_at[i]);
    const float share = ways.gamma_at[i] - static_cast<float>(index);
    const float here_cd = table[index];
    out_lx[i] = ways.per_cd[i] * (here_cd + share * (table[index + 1] - here_cd));
  }
}

DUSKWIRE_PER_PROCESSOR
void by_planes_lx(const LampFrame& lamp, const LookupGrid& grid, const ReceiverBlock& block, Numbers& out_lx) {
  Ways ways;
  find_ways<false>(lamp, grid, block, ways);
  const float* table = grid.intensity_cd.data();
  const int before_last = grid.planes - 2;
  for (std::size_t i = 0; i < ReceiverBlock::capacity; ++i) {
    const int counted = static_cast<int>(ways.c_at[i]);
    const int plane = counted < before_last ? counted : before_last;
    const float turned = ways.c_at[i] - static_cast<float>(plane);
    const int index = static_cast<int>(ways.gamma_at[i]);
    const float share = ways.gamma_at[i] - static_cast<float>(index);
    const int here = plane * grid.gammas + index;
    const float near_cd = table[here] + share * (table[here + 1] - table[here]);
    const int there = here + grid.gammas;
    // The pair's second entry beyond the last gamma counts for nothing: its share is 0 there.
    const float far_cd = table[there] + share * (table[there + 1] - table[there]);
    out_lx[i] = ways.per_cd[i] * (near_cd + turned * (far_cd - near_cd));
  }
}

// Half of the way at most is kept clear, so that something remains to be asked.
constexpr float most_clear_share = 0.5F;

DUSKWIRE_PER_PROCESSOR
void lifted_ways(Place base, const ReceiverBlock& block, float lift_m, float clear_m, ShadowWays& ways) {
  for (std::size_t i = 0; i < ReceiverBlock::capacity; ++i) {
    const float x = base.x + block.x_m[i] + lift_m * block.normal_x[i];
    const float y = base.y + block.y_m[i] + lift_m * block.normal_y[i];
    const float z = base.z + block.z_m[i] + lift_m * block.normal_z[i];
    const float share = clear_m / std::sqrt(x * x + y * y + z * z + std::numeric_limits<float>::min());
    ways.x[i] = x;
    ways.y[i] = y;
    ways.z[i] = z;
    ways.from[i] = share < most_clear_share ? share : most_clear_share;
  }
}

}  // namespace

LampFrame lamp_frame(const Lamp& lamp) {
  LampFrame frame;
  frame.position = lamp.position;
  frame.aim = unit(lamp.aim);
  const Vec3 across = lamp.zero - dot(lamp.zero, frame.aim) * frame.aim;
  frame.x = length(across) > 1e-9 * length(lamp.zero) ? unit(across) : any_square_to(frame.aim);
  frame.y = cross(-frame.aim, frame.x);
  frame.share = lamp.share;
  return frame;
}

float at_most_lx(const LampFrame& lamp, const LookupGrid& grid, const ReceiverBlock& block) {
  const Vec3 way = block.base - lamp.position;
  const double distance_m = length(way);
  const double radius_m = double{block.radius_m};
  if (distance_m <= 1.001 * radius_m + 1e-3) return std::numeric_limits<float>::infinity();
  if (block.flat) {
    const Vec3 normal{double{block.normal_x[0]}, double{block.normal_y[0]}, double{block.normal_z[0]}};
    if (-dot(way, normal) + radius_m <= 0) return 0;
  }
  const double middle_rad = std::acos(std::clamp(dot(way, lamp.aim) / distance_m, -1.0, 1.0));
  const double spread_rad = std::asin(radius_m / distance_m);
  const auto from_deg = static_cast<float>(middle_rad - spread_rad) * deg_per_rad - 0.01F;
  const auto to_deg = static_cast<float>(middle_rad + spread_rad) * deg_per_rad + 0.01F;
  const double nearest_distance_m = distance_m - radius_m;
  return most_cd_between(grid, from_deg, to_deg) * static_cast<float>(lamp.share) /
         static_cast<float>(nearest_distance_m * nearest_distance_m);
}

void unshadowed_lx(const LampFrame& lamp, const LookupGrid& grid, const ReceiverBlock& block, Numbers& out_lx) {
  if (grid.planes == 1) {
    all_round_lx(lamp, grid, block, out_lx);
  } else {
    by_planes_lx(lamp, grid, block, out_lx);
  }
}

void find_shadow_ways(geometry::Point3 lamp, const ReceiverBlock& block, float lift_m, float clear_m,
                      ShadowWays& ways) {
  lifted_ways(narrow(block.base - lamp), block, lift_m, clear_m, ways);
}

}  // namespace duskwire::light
