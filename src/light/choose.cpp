// SPDX-License-Identifier: Apache-2.0
#include "light/choose.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace duskwire::light {
namespace {

constexpr double degree = std::numbers::pi / 180;
constexpr double overlap = 1.1;       // of spots side by side
constexpr double dense_below = 0.15;  // of a crown's transmittance
constexpr double pair_m = 0.35;       // lamps nearer than this along the walk stand opposite each other
constexpr std::uint32_t row_from = 4;
constexpr double even_within = 0.15;  // of the mean gap

std::vector<WalkLight> in_order(std::span<const WalkLight> lights) {
  std::vector<WalkLight> sorted(lights.begin(), lights.end());
  std::sort(sorted.begin(), sorted.end(), [](WalkLight p, WalkLight q) { return p.along_m < q.along_m; });
  return sorted;
}

bool is_even_row(const std::vector<WalkLight>& sorted) {
  if (sorted.size() < row_from) return false;
  const bool left = sorted.front().left;
  if (std::any_of(sorted.begin(), sorted.end(), [&](WalkLight light) { return light.left != left; })) return false;
  const double mean_m = (sorted.back().along_m - sorted.front().along_m) / static_cast<double>(sorted.size() - 1);
  for (std::size_t i = 1; i < sorted.size(); ++i) {
    if (std::abs(sorted[i].along_m - sorted[i - 1].along_m - mean_m) > even_within * mean_m) return false;
  }
  return true;
}

}  // namespace

CrownNeed crown_need(const CrownSize& crown, double setback_m) {
  const double middle_m = (crown.base_m + crown.top_m) / 2;
  CrownNeed need;
  need.distance_m = std::hypot(setback_m, middle_m);
  need.beam_deg = 2 * std::atan2(crown.width_m / 2, need.distance_m) / degree;
  need.tilt_deg = std::atan2(middle_m, setback_m) / degree;
  return need;
}

double spot_m(double beam_deg, double distance_m) {
  return 2 * distance_m * std::tan(std::min(beam_deg, 179.0) / 2 * degree);
}

std::uint32_t lamps_across(double width_m, double spot_m) {
  if (!(spot_m > 0)) return 0;
  if (spot_m >= width_m) return 1;
  return static_cast<std::uint32_t>(std::min(std::ceil(overlap * width_m / spot_m - 1e-9), 1000.0));
}

std::uint32_t most_lamps_of_tree(double height_m) {
  constexpr double height_of_one_m = 4;
  return static_cast<std::uint32_t>(std::clamp(std::round(height_m / height_of_one_m), 2.0, 5.0));
}

double tree_flux_lm(double height_m) {
  constexpr double small_lm = 280;
  constexpr double middle_lm = 400;
  constexpr double tall_lm = 1600;
  if (height_m <= 4) return small_lm;
  if (height_m <= 9) return middle_lm;
  if (height_m >= 14) return tall_lm;
  return middle_lm + (tall_lm - middle_lm) * (height_m - 9) / 5;
}

double tree_setback_m(double crown_width_m, double transmittance) {
  if (transmittance < dense_below) return crown_width_m / 2 + 0.5;
  return std::clamp(0.3 * crown_width_m, 0.6, 3.0);
}

WallNeed wall_need(double length_m, double height_m, std::optional<double> setback_m) {
  constexpr double widest = 1.5;  // spacing over setback
  WallNeed need;
  need.setback_m = std::max(setback_m.value_or(height_m / 3), 0.05);
  const double count = std::ceil(length_m / (widest * need.setback_m) - 1e-9);
  need.count = static_cast<std::uint32_t>(std::clamp(count, 1.0, 1000.0));
  need.spacing_m = length_m / need.count;
  need.beam_deg = std::atan2(height_m, need.setback_m) / degree;
  return need;
}

double wash_tilt_deg(double height_m, double setback_m, double beam_deg) {
  return std::max(std::atan2(height_m, setback_m) / degree - beam_deg / 2, 0.0);
}

WalkPlan walk_plan(double length_m, double longest_m, double pool_m) {
  WalkPlan plan;
  const double gap_m = pool_m > 0 ? std::min(longest_m, pool_m) : longest_m;
  if (!(length_m > 0) || !(gap_m > 0)) return plan;
  const double count = std::clamp(std::ceil(length_m / gap_m - 1e-9), 1.0, 1000.0);
  plan.pitch_m = length_m / count;
  for (int i = 0; i < static_cast<int>(count); ++i) plan.lights.push_back({(i + 0.5) * plan.pitch_m, i % 2 == 0});
  return plan;
}

double nearest_light_m(std::span<const WalkLight> lights, double along_m) {
  double least_m = std::numeric_limits<double>::infinity();
  for (const WalkLight light : lights) least_m = std::min(least_m, std::abs(light.along_m - along_m));
  return least_m;
}

bool needs_step_light(std::span<const WalkLight> lights, double along_m) {
  return nearest_light_m(lights, along_m) > riser_reach_m;
}

Runway runway(std::span<const WalkLight> lights) {
  const std::vector<WalkLight> sorted = in_order(lights);
  std::uint32_t pairs = 0;
  for (std::size_t i = 1; i < sorted.size(); ++i) {
    if (sorted[i].left == sorted[i - 1].left || sorted[i].along_m - sorted[i - 1].along_m > pair_m) continue;
    ++pairs;
    ++i;  // each lamp stands in one pair
  }
  if (pairs >= 2) return Runway::facing_pairs;
  return is_even_row(sorted) ? Runway::one_row : Runway::none;
}

double longest_gap_m(std::span<const WalkLight> lights) {
  const std::vector<WalkLight> sorted = in_order(lights);
  double gap_m = 0;
  for (std::size_t i = 1; i < sorted.size(); ++i) gap_m = std::max(gap_m, sorted[i].along_m - sorted[i - 1].along_m);
  return gap_m;
}

}  // namespace duskwire::light
