// SPDX-License-Identifier: Apache-2.0
// The garden's plan at a true scale: ground, lamps, cables and what else a paper asks for, with labels, a legend of
// what is on it, ratio, bar and north. Distances are for finding things; tape offsets and lists are for digging.
#pragma once

#include <optional>
#include <string>

#include "job/job.hpp"
#include "paper/document.hpp"
#include "paper/plan_scale.hpp"

namespace duskwire::paper {

struct PlanLook {
  bool cables = true;
  bool cable_labels = false;
  bool joints = true;
  bool joint_labels = false;
  bool transformers = true;
  bool sleeves = true;
  bool receptacles = true;
  bool fixed_points = true;
  bool view_points = false;
  bool trees = true;
  std::string note;  // below the legend: "Metres along cables are in the run table."
};

// What a client looks at: lamps and ground, nothing of the wiring.
[[nodiscard]] PlanLook plan_for_client();

struct Plan {
  Drawing drawing;
  PlanScale scale;
};

// Within a width and a height, legend included. Nothing where the job has no place for anything.
[[nodiscard]] std::optional<Plan> plan_drawing(const job::Job& job, const PlanLook& look, job::DisplayUnits units,
                                               double width_mm, double height_mm);

// A sheet of its own with a title block, the way up that shows more. `document` gives the title block's height; the
// sheet is larger than `size` (A3 or tabloid) where the garden would come out smaller than 1:250 and `may_grow`.
[[nodiscard]] std::optional<Section> plan_section(const job::Job& job, const PlanLook& look, job::DisplayUnits units,
                                                  PageSize size, const Document& document, const std::string& title,
                                                  bool may_grow = true);

}  // namespace duskwire::paper
