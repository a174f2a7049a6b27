// SPDX-License-Identifier: Apache-2.0
// The cheapest wiring of a small site on level, even ground with one transformer, by a mixed-integer program: what the
// planner's answers are measured against. Model: docs/algorithms/planner-optimum.md.
#pragma once

#include <cstdint>
#include <optional>
#include <utility>
#include <vector>

#include "estimate/installed.hpp"
#include "job/job.hpp"

namespace duskwire::sites {

struct OptimumPoint {
  geometry::Point2 place;
  bool takes_joint = true;  // false: trenches may bend there, nothing more
};

// Cables and connectors by what they cost put in, minor units. The first point is the transformer's place, then the
// lamps in the order of the job, then others.
struct OptimumProblem {
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
  };
  std::vector<OptimumPoint> points;
  std::vector<std::pair<std::uint32_t, std::uint32_t>> ways;  // pairs of points between which a trench may run straight
  std::vector<Lamp> lamps;
  std::vector<Cable> cables;  // thin to thick
  // By number of wires and thickest cable; infinite where no connector takes them.
  std::vector<std::vector<double>> joint_cost;
  double dig_per_m = 0;
  double tag_cost = 0;
  double longest_cable_m = 0;  // one and a half times the way to the farthest lamp, and no less than what is kept
  double slack_output_m = 0;
  double slack_splice_m = 0;
  double slack_luminaire_m = 0;
  // Transformers that may do, cheapest first; one is taken. `most_a`: amperes that it may give with its headroom.
  struct Unit {
    std::string item;
    double cost = 0;
    double tap_v = 0;
    double source_v = 0;  // of the tap when mains are low
    double source_ohm = 0;
    double most_a = 0;
    std::vector<double> devices_a;  // that may be fitted at its output, ascending
  };
  std::vector<Unit> units;
  double device_share = 0.8;  // of a device's amperes that may be drawn
};

// `ways_kept`: trenches of a known wiring, each from bend to bend: its bends become points, and its stretches are not
// left out. A straight way is left out where going over a third point is less than `spare_detour` longer.
struct OptimumOptions {
  std::vector<geometry::Polyline> ways_kept;
  std::vector<geometry::Point2> joints_kept;
  std::uint32_t hubs = 2;  // points where three trenches meet best
  double spare_detour = 0.01;
  std::optional<double> known_cost_minor;  // of that wiring: nothing dearer is looked at
  double seconds = 60;
  double tolerance = 0.001;
};

// Empty where the site is not of this kind: more than one transformer, no position, no cable that fits.
[[nodiscard]] std::optional<OptimumProblem> optimum_problem(const job::Job& site, const job::Catalogue& stock,
                                                            const estimate::InstallRates& rates,
                                                            const OptimumOptions& options);

struct Optimum {
  double cost_minor = 0;   // of the cheapest known: without lamps and mounts, nothing rounded up
  double bound_minor = 0;  // no wiring over these points and ways costs less
  bool proven = false;     // the one is within the tolerance of the other
  // The cheapest that the program found; absent where that is the known one. It errs on the cheap side: whether it
  // would pass the full check.
  std::optional<job::Job> job;
  bool sound = true;
};

[[nodiscard]] std::optional<Optimum> optimum(const job::Job& site, const job::Catalogue& stock,
                                             const estimate::InstallRates& rates, const OptimumOptions& options);

// The installed cost of a job on such a site in the same terms: without lamps and mounts, cable not rounded up to whole
// steps, staples not to whole pieces, trenches measured from point to point instead of by samples.
[[nodiscard]] double plain_cost_minor(const job::Job& job, const job::Catalogue& stock,
                                      const estimate::InstallRates& rates);

}  // namespace duskwire::sites
