// SPDX-License-Identifier: Apache-2.0
// What the crew's papers say, as values: every schedule from the one job, its list of materials and its report. SI
// numbers; the papers and the tables turn them into the job's units.
#pragma once

#include <vector>

#include "estimate/materials.hpp"
#include "job/job.hpp"
#include "study/crew_aim.hpp"
#include "study/crew_commissioning.hpp"
#include "study/crew_gate.hpp"
#include "study/crew_joints.hpp"
#include "study/crew_picks.hpp"
#include "study/crew_runs.hpp"
#include "study/crew_trench.hpp"
#include "study/report.hpp"

namespace duskwire::study {

struct CrewTotals {
  std::uint32_t luminaires = 0;
  std::uint32_t cables = 0;
  std::uint32_t joints = 0;
  std::uint32_t connectors = 0;
  double lamp_va = 0;
  double route_m = 0;
  double cut_m = 0;
  double bought_m = 0;
  double dug_m = 0;
};

struct CrewSet {
  std::vector<CrewRun> runs;
  std::vector<CrewJoint> joints;
  CrewGround ground;
  std::vector<CrewAim> aims;
  std::vector<CrewBag> bags;
  CrewGate gate;
  CommissioningSheet commissioning;
  estimate::Materials materials;  // with the cut list and the reels
  CrewTotals totals;              // summed over the lists above
  bool sound = false;             // the report has no error
};

// `materials` and `report` of this job. `stock` supplies titles of items that the job's own catalogue lacks.
[[nodiscard]] CrewSet crew_set(const job::Job& job, const job::Catalogue& stock, estimate::Materials materials,
                               const Report& report);

}  // namespace duskwire::study
