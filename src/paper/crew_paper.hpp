// SPDX-License-Identifier: Apache-2.0
// The crew set: what may not be forgotten before the first spade, the wiring as a diagram, and every list that a crew
// works by. All of it from one study::CrewSet.
#pragma once

#include "job/job.hpp"
#include "paper/document.hpp"
#include "study/crew.hpp"

namespace duskwire::paper {

// `frame` gives whose paper it is: its title block and revisions; sections are not looked at. `plans` are sections that
// stand after the first one: the plan at scale.
struct CrewWish {
  PageSize size = PageSize::a4;
  job::DisplayUnits units = job::DisplayUnits::us;
  Document frame;
  std::vector<Section> plans;
};

[[nodiscard]] Document crew_paper(const CrewWish& wish, const job::Job& job, const study::CrewSet& set);

// What the lists rest on, for both of the crew's papers: "mains 114 to 126 V, ...".
[[nodiscard]] std::string rests_on(const job::Job& job);

}  // namespace duskwire::paper
