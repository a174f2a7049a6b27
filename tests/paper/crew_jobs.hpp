// SPDX-License-Identifier: Apache-2.0
// Gardens for the tests of the crew's papers: planned by the router on seeded lots, with everything that the papers
// say.
#pragma once

#include <cstdint>
#include <string>

#include "job/job.hpp"
#include "paper/crew_paper.hpp"
#include "paper/document.hpp"
#include "study/crew.hpp"

namespace duskwire::paper {

struct CrewGarden {
  job::Job job;
  estimate::Materials materials;
  study::Report report;
  study::CrewSet set;
};

// The same lot each time.
[[nodiscard]] CrewGarden crew_garden(std::uint32_t lamps, job::DisplayUnits units = job::DisplayUnits::metric);
[[nodiscard]] CrewGarden garden_of(job::Job job);

[[nodiscard]] CrewWish crew_wish(const CrewGarden& garden, PageSize size = PageSize::a4);

// The PDF's text by poppler, laid out as on the page.
[[nodiscard]] std::string text_of(const Document& paper);

}  // namespace duskwire::paper
