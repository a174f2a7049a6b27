// SPDX-License-Identifier: Apache-2.0
// The crew's lists as tables of a paper. What they say: study/crew.hpp.
#pragma once

#include "paper/document.hpp"
#include "study/crew.hpp"

namespace duskwire::paper {

[[nodiscard]] Table gate_table(const study::CrewGate& gate);
[[nodiscard]] Table run_summary_table(const study::CrewSet& set, job::DisplayUnits units);
[[nodiscard]] Table run_table(const study::CrewRun& run, job::DisplayUnits units);
[[nodiscard]] Table cut_table(const estimate::Materials& materials, job::DisplayUnits units);
[[nodiscard]] Table reel_table(const estimate::Materials& materials, job::DisplayUnits units);
[[nodiscard]] Table joint_table(const study::CrewSet& set, job::DisplayUnits units);
[[nodiscard]] Table trench_table(const study::CrewGround& ground, job::DisplayUnits units);
[[nodiscard]] Table sleeve_table(const study::CrewGround& ground, job::DisplayUnits units);
[[nodiscard]] Table aim_table(const std::vector<study::CrewAim>& aims, job::DisplayUnits units);
[[nodiscard]] Table pick_table(const study::CrewSet& set, job::DisplayUnits units);

}  // namespace duskwire::paper
