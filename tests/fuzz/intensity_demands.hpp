// SPDX-License-Identifier: Apache-2.0
// What must hold of whatever a reader of light intensities makes of any bytes: findings fit to be shown; a table that
// is whole, ascending and finite, with sums that agree; and text that comes back as the same light.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <string>

#include "base/utf8.hpp"
#include "light/lm63_reader.hpp"
#include "light/lm63_writer.hpp"
#include "light/photometry.hpp"

namespace duskwire {

inline void demand(bool condition, const char* what) {
  if (condition) return;
  std::fprintf(stderr, "broken: %s\n", what);
  std::abort();
}

inline void demand_sound_table(const light::Distribution& d) {
  demand(d.intensity_cd.size() == d.horizontal_deg.size() * d.vertical_deg.size(), "the table is whole");
  for (const auto* angles : {&d.horizontal_deg, &d.vertical_deg}) {
    demand(!angles->empty(), "there are angles");
    demand(std::is_sorted(angles->begin(), angles->end(), std::less_equal<>()), "angles ascend");
  }
  for (const double cd : d.intensity_cd) demand(cd >= 0 && cd <= 1e10, "intensities are in range");
  if (d.type != light::PhotometricType::c) return;
  demand(d.horizontal_deg.size() == 1 || (d.horizontal_deg.front() == 0 && d.horizontal_deg.back() == 360),
         "the turn is closed");
}

inline void demand_round_trip(const light::IntensityFile& file) {
  const std::string text = light::write_lm63(file);
  const light::ReadIntensities back = light::read_lm63(text);
  demand(back.file.has_value(), "what was written is read");
  const light::Distribution& a = file.distribution;
  const light::Distribution& b = back.file->distribution;
  demand(a.horizontal_deg.size() == b.horizontal_deg.size() && a.vertical_deg == b.vertical_deg, "angles come back");
  const double care_cd = 1e-9 + 1e-7 * *std::max_element(a.intensity_cd.begin(), a.intensity_cd.end());
  for (std::size_t i = 0; i < a.intensity_cd.size(); ++i) {
    demand(std::abs(a.intensity_cd[i] - b.intensity_cd[i]) <= care_cd, "intensities come back");
  }
}

inline void demand_sound_reading(const light::ReadIntensities& read) {
  for (const Problem& problem : read.problems) {
    demand(!problem.message.empty(), "a problem says something");
    for (const std::string& text : {problem.message, problem.value, problem.expected, problem.pointer}) {
      demand(well_formed(text) == text, "what a problem says is UTF-8");
    }
  }
  demand(read.file.has_value() != has_errors(read.problems), "a refusal has its reason");
  if (!read.file) return;
  for (const light::Keyword& keyword : read.file->keywords) {
    demand(well_formed(keyword.text) == keyword.text && well_formed(keyword.name) == keyword.name, "labels are UTF-8");
  }
  demand_sound_table(read.file->distribution);
  if (read.file->distribution.intensity_cd.size() > 20'000) return;  // the sums of large tables take their time
  demand(std::isfinite(light::flux_lm(read.file->distribution)), "the flux is finite");
  demand_round_trip(*read.file);
}

}  // namespace duskwire
