// SPDX-License-Identifier: Apache-2.0
// A small site with one place for a transformer, as points, ways and prices: what the mixed-integer program of its
// cheapest wiring is written from. Model: docs/algorithms/planner-optimum.md.
#pragma once

#include <cmath>
#include <cstdint>
#include <string>
#include <vector>

#include "geometry/point.hpp"

namespace duskwire::wiring {

struct ExactPoint {
  geometry::Point2 place;
  bool takes_joint = true;  // false: trenches may bend there, nothing more
};

// Cables and connectors by what they cost put in, minor units. The first point is the transformer's place, then the
// lamps in the order of the job, then others.
// Between two points a trench may run.
struct ExactWay {
  std::uint32_t a = 0;
  std::uint32_t b = 0;
  double length_m = 0;
  double dig_cost = 0;  // once
};

struct ExactProblem {
  struct Cable {
    std::string item;
    double ohm_per_m = 0;    // both conductors, hot and long
    double price_per_m = 0;  // bought, waste included: of slack, too
    double lay_per_m = 0;    // along the route: minutes, staples
    double ampacity_a = 0;
    double area_mm2 = 0;
  };
  struct Lamp {
    double load_va = 0;   // draws load_va / volts, never more volts than the source has when mains are low
    double floor_v = 0;   // least that it should see
    double lead_ohm = 0;  // both conductors, hot and long
    double slack_m = 0;   // of a cable that ends in it
  };
  std::vector<ExactPoint> points;
  std::vector<ExactWay> ways;
  std::vector<Lamp> lamps;
  std::vector<Cable> cables;  // thin to thick
  // By number of wires and thickest cable; infinite where no connector takes them.
  std::vector<std::vector<double>> joint_cost;
  double tag_cost = 0;
  double joint_away_cost = 0;  // of a joint at no lamp, besides
  double longest_cable_m = 0;  // one and a half times the way to the farthest lamp, and no less than what is kept
  double slack_output_m = 0;
  double slack_splice_m = 0;
  // Transformers that may do, cheapest first; one is taken. `most_a`: amperes that it may give with its headroom.
  struct Unit {
    std::string item;
    double cost = 0;
    double tap_v = 0;
    double source_v = 0;  // of the tap when mains are low
    double source_ohm = 0;
    double most_a = 0;
    std::vector<double> devices_a;  // that may be fitted at its output, ascending; none: not asked for
    std::uint32_t sizes = 0;        // of the cables, the thinnest so many: thicker ones are not sensible with it
  };
  std::vector<Unit> units;
  double device_share = 0.8;  // of a device's amperes that may be drawn
};

// The current at which a source delivers so many VA at its terminals: I (V - I R) grows with I as far as half the
// short-circuit current.
[[nodiscard]] inline double amperes_at_va(double va, double source_v, double source_ohm) {
  const double under_root = source_v * source_v - 4 * source_ohm * va;
  return under_root > 0 ? 2 * va / (source_v + std::sqrt(under_root)) : source_v / (2 * source_ohm);
}

}  // namespace duskwire::wiring
