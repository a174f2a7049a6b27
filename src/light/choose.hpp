// SPDX-License-Identifier: Apache-2.0
// Where lamps go and how wide they shine, from the size of what they light: crowns, walls, walks, steps. Geometry and
// the trade's rules of thumb alone; what it gives in lux is computed afterwards with the lamps in place.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

namespace duskwire::light {

// ---- a crown, lit from the ground beside its trunk ----

struct CrownSize {
  double width_m = 0;
  double base_m = 0;  // where it begins, over the lamp
  double top_m = 0;
};

struct CrownNeed {
  double distance_m = 0;  // lamp to the middle of the crown
  double beam_deg = 0;    // that spans the crown: 2 atan(width / 2 distance)
  double tilt_deg = 0;    // of the aim, above the level
};
[[nodiscard]] CrownNeed crown_need(const CrownSize& crown, double setback_m);

// Across, where a beam ends at half its intensity.
[[nodiscard]] double spot_m(double beam_deg, double distance_m);

// Lamps that cover a width side by side, each overlapping the next: the least number for that beam.
[[nodiscard]] std::uint32_t lamps_across(double width_m, double spot_m);

// Most lamps that a tree of that height is given: two when small, about one to each 4 m of height (trade writers: under
// 6 m two small ones, at 15 m three to five).
[[nodiscard]] std::uint32_t most_lamps_of_tree(double height_m);

// Lumens for a tree (a lighting shop's table: to 4 m 280, 4 to 9 m 400, above 14 m up to 1600; straight between 9 and
// 14 m, which it leaves open).
[[nodiscard]] double tree_flux_lm(double height_m);

// Setback of an uplight: open crowns from near the trunk, dense ones from outside the drip line (common practice).
[[nodiscard]] double tree_setback_m(double crown_width_m, double transmittance);

// ---- a wall, washed from the ground before it ----

struct WallNeed {
  double setback_m = 0;  // a third of the height
  double spacing_m = 0;  // even, 1 to 1.5 times the setback
  std::uint32_t count = 0;
  double beam_deg = 0;  // from the foot to the top of the wall
};
[[nodiscard]] WallNeed wall_need(double length_m, double height_m, std::optional<double> setback_m = {});

// Aim of a wash whose upper edge of the beam meets the top of the wall, above the level.
[[nodiscard]] double wash_tilt_deg(double height_m, double setback_m, double beam_deg);

// Nearer than this a lamp grazes: it shows the relief, not the face.
inline constexpr double graze_m = 0.3;

// ---- a walk ----

struct WalkLight {
  double along_m = 0;
  bool left = false;
};

// Even along the walk, alternating, the first and last half a pitch from its ends.
struct WalkPlan {
  double pitch_m = 0;
  std::vector<WalkLight> lights;
};
// `longest_m`: no gap is longer. Pools of light that are narrower bring the lamps nearer, so that they meet.
[[nodiscard]] WalkPlan walk_plan(double length_m, double longest_m, double pool_m);

// Usual longest spacing of path lights: 8 ft (trade writers: 1.8 to 2.4 m; to 3 m on straight simple walks).
inline constexpr double usual_longest_m = 2.44;
// A riser wants a light of its own where the nearest is farther than this (common practice, no source).
inline constexpr double riser_reach_m = 0.6;

[[nodiscard]] double nearest_light_m(std::span<const WalkLight> lights, double along_m);
[[nodiscard]] bool needs_step_light(std::span<const WalkLight> lights, double along_m);

enum class Runway : std::uint8_t {
  none = 0,
  facing_pairs = 1,  // lamps stand opposite each other
  one_row = 2,       // all on one side at even distances
};
// A walk should not look like an airfield: pairs that face each other, or one long even row.
[[nodiscard]] Runway runway(std::span<const WalkLight> lights);

// Longest stretch without a lamp, between neighbours along the walk.
[[nodiscard]] double longest_gap_m(std::span<const WalkLight> lights);

}  // namespace duskwire::light
