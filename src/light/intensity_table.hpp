// SPDX-License-Identifier: Apache-2.0
// Checks of a listed table that both readers share: angles that ascend and stay in range, intensities that can be.
#pragma once

#include <span>

#include "light/intensity_file.hpp"
#include "light/intensity_text.hpp"

namespace duskwire::light {

// More than any lamp on land sends (a large searchlight has some 1e9 cd; common practice, no source).
inline constexpr double intensity_limit_cd = 1e10;

// Errors for the first angle that does not increase, and for the first out of range. `line` is where the list ends.
void check_angles(std::span<const double> angles_deg, const char* what, double min_deg, double max_deg,
                  std::size_t line, IntensityFindings& findings);

// Multiplies by `factor`; negative intensities become 0 with a warning, absurd ones are an error.
void apply_factor(std::vector<double>& intensity_cd, double factor, std::size_t line, IntensityFindings& findings);

// Warnings for a type C table that leaves part of its hemisphere out, and for one without any light.
void judge_table(const ListedTable& listed, IntensityFindings& findings);

}  // namespace duskwire::light
