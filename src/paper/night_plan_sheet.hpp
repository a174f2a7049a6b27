// SPDX-License-Identifier: Apache-2.0
// The night plan as a drawing: light on the ground in false colour with lines of equal light and a legend, or as pools
// of light; over it the plan's outlines and the lamps.
#pragma once

#include <string>

#include "base/result.hpp"
#include "job/job.hpp"
#include "study/night_plan.hpp"

namespace duskwire::paper {

struct NightPlanLook {
  bool pools = false;
  job::DisplayUnits units = job::DisplayUnits::metric;
  double width_px = 1400;
};

// The file's bytes. Errors: invalid where the plan is empty, unavailable where the drawing library gives up.
[[nodiscard]] Result<std::string> night_plan_png(const job::Job& job, const study::NightPlan& plan,
                                                 const NightPlanLook& look = {});
[[nodiscard]] Result<std::string> night_plan_svg(const job::Job& job, const study::NightPlan& plan,
                                                 const NightPlanLook& look = {});

}  // namespace duskwire::paper
