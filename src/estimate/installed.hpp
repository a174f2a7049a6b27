// SPDX-License-Identifier: Apache-2.0
// What a wiring costs to put in: material, the minutes of the list of materials, and the trench, dug once where cables
// share it. One measure for today's job, for a planned one and for any other, so that they can be set side by side.
// An estimate from the plan; the soil decides. Method and figures: docs/algorithms/planner.md.
#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <vector>

#include "job/job.hpp"

namespace duskwire::estimate {

inline constexpr std::size_t ground_kind_count = 14;

// Minutes of one person, per metre. 60 m/h in a bed and 9 m/h in lawn with a spade, two hours for a sleeve under a walk
// of 1.2 to 1.5 m: common practice, no source. The others: estimates.
struct InstallRates {
  std::int64_t labour_minor_per_h = 4000;  // an hour's cost to the shop
  std::array<double, ground_kind_count> trench_min_per_m = {
      1.0,       // bed
      60 / 9.0,  // lawn
      8.0,       // gravel
      90.0,      // paving: a new sleeve
      90.0,      // drive: a new sleeve
      90.0,      // street: a new sleeve
      4.0,       // building: fastened along it
      3.0,       // deck: fastened below it
      4.0,       // wall
      6.0,       // steps
      6.0,       // water
      6.0,       // pool
      20.0,      // root zone: by hand
      60 / 9.0,  // forbidden
  };
  double unknown_trench_min_per_m = 60 / 9.0;
  double sleeve_pull_min_per_m = 0.5;  // through a sleeve that is there

  bool operator==(const InstallRates&) const = default;
};

struct InstalledCost {
  std::int64_t cost_minor = 0;      // material and labour
  std::int64_t material_minor = 0;  // the whole list of materials: lamps too
  double labour_min = 0;            // the list's minutes and the trench's
  double trench_min = 0;
  double trench_m = 0;  // dug, each stretch once
  double cable_m = 0;   // cut, slack included
  std::uint32_t joints = 0;
  std::uint32_t cable_types = 0;
};

// `sleeves_to_lay`: ids of sleeves in the plan that are not there yet and have to be laid.
[[nodiscard]] InstalledCost installed_cost(const job::Job& job, const job::Catalogue& stock, const InstallRates& rates,
                                           const std::vector<std::string>& sleeves_to_lay = {});

}  // namespace duskwire::estimate
