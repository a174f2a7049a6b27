// SPDX-License-Identifier: Apache-2.0
// The cheapest wiring of a small site on level, even ground with one transformer, by a mixed-integer program: what the
// planner's answers are measured against. Model: docs/algorithms/planner-optimum.md.
#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "estimate/installed.hpp"
#include "job/job.hpp"
#include "sites/wiring_sketch.hpp"
#include "wiring/exact_problem.hpp"

namespace duskwire::sites {

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
[[nodiscard]] std::optional<wiring::ExactProblem> optimum_problem(const job::Job& site, const job::Catalogue& stock,
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

// The wiring that a solution of the program means.
[[nodiscard]] WiringSketch sketch_of(const wiring::ExactProblem& problem, const wiring::ExactProblem::Unit& unit,
                                     const std::map<std::string, double>& values);

// The installed cost of a job on such a site in the same terms: without lamps and mounts, cable not rounded up to whole
// steps, staples not to whole pieces, trenches measured from point to point instead of by samples.
[[nodiscard]] double plain_cost_minor(const job::Job& job, const job::Catalogue& stock,
                                      const estimate::InstallRates& rates);

}  // namespace duskwire::sites
