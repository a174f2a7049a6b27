// SPDX-License-Identifier: Apache-2.0
// The legend of a plan: only what is on it, with ratio, bar and north, as a column beside the plan or a band below it.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "job/job.hpp"
#include "paper/pen.hpp"
#include "paper/plan_drawing.hpp"

namespace duskwire::paper {

struct LegendEntry {
  std::function<void(Pen& pen, PointMm centre)> sign;  // up to 8 mm wide
  std::string text;
};

[[nodiscard]] std::vector<LegendEntry> legend_of(const job::Job& job, const PlanLook& look);

struct Legend {
  std::vector<LegendEntry> entries;
  std::string note;
  double north_deg = 90;
  job::DisplayUnits units = job::DisplayUnits::metric;
};

inline constexpr double legend_column_mm = 43;
// Of a band that wide; a width of one column gives the column's height.
[[nodiscard]] double legend_height_mm(const Legend& legend, double width_mm);
void draw_legend(Pen& pen, PointMm top_left, double width_mm, const Legend& legend, const PlanScale& scale);

}  // namespace duskwire::paper
