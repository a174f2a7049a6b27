// SPDX-License-Identifier: Apache-2.0
// The corners of a job: every combination of mains low and high, cable cold and hot, runs short and long, after the
// nominal case. "Worst" is taken over all of them. A tolerance of nothing makes no corner of its own.
#pragma once

#include <string>
#include <vector>

#include "electrical/network.hpp"
#include "job/site.hpp"

namespace duskwire::study {

struct Corner {
  double mains_factor = 1;
  double cable_c = 20;
  double length_factor = 1;
  bool lone_lamps = false;  // each lamp is judged as if it alone were on
};

// Nominal first; where the site wants few lamps judged, last: mains high, cable cold, short, one lamp on.
// Each tolerance is bounded: mains and length to 50 %, cable to -40 ... 150 C (the range of the copper law).
[[nodiscard]] std::vector<Corner> corners_of(const job::Corners& site);

// "nominal", "mains low, cable hot, long", "one lamp on, mains high, cable cold, short". What does not differ from
// nominal is left out.
[[nodiscard]] std::string corner_words(const Corner& corner, const Corner& nominal);

// The corner in which a short draws the least: mains low, cable hot, long.
[[nodiscard]] Corner weakest_corner(const job::Corners& site);

// Sets what differs between corners; network resistances are those of 20 C, so the factor holds temperature and length.
void set_condition(electrical::Condition& condition, const Corner& corner);

}  // namespace duskwire::study
