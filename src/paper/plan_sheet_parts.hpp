// SPDX-License-Identifier: Apache-2.0
// The garden itself on a plan: ground first, then wiring, then lamps, labels on top.
#pragma once

#include "job/job.hpp"
#include "paper/pen.hpp"
#include "paper/plan_drawing.hpp"
#include "paper/plan_labels.hpp"

namespace duskwire::paper {

void draw_garden(Pen& pen, const job::Job& job, const PlanLook& look, const PlanFrame& frame, const Box& paper);

// What is labelled on a plan, and what labels keep clear of.
struct PlanLabels {
  std::vector<Label> labels;
  LabelRoom room;
};
[[nodiscard]] PlanLabels plan_labels(const job::Job& job, const PlanLook& look, const PlanFrame& frame,
                                     const Box& paper);

}  // namespace duskwire::paper
