// SPDX-License-Identifier: Apache-2.0
#include "crew_jobs.hpp"

#include "paper/layout.hpp"
#include "paper/render.hpp"
#include "read_back.hpp"
#include "sites/lots.hpp"
#include "sites/planned.hpp"
#include "sites/stock.hpp"
#include "study/check.hpp"

namespace duskwire::paper {

CrewGarden garden_of(job::Job job) {
  CrewGarden garden;
  garden.job = std::move(job);
  garden.materials = estimate::materials(garden.job, sites::stock());
  garden.report = study::check(garden.job, sites::us_rules(), sites::stock(), {.cures = false});
  garden.set = study::crew_set(garden.job, sites::stock(), garden.materials, garden.report);
  return garden;
}

CrewGarden crew_garden(std::uint32_t lamps, job::DisplayUnits units) {
  study::RouteRequest request;
  request.most_steps = 10;
  job::Job job = sites::planned(sites::lot({lamps, 4}, sites::stock()), request).job.value();
  job.title = "Test garden";
  job.site.units = units;
  return garden_of(std::move(job));
}

CrewWish crew_wish(const CrewGarden& garden, PageSize size) {
  CrewWish wish;
  wish.size = size;
  wish.units = garden.job.site.units;
  wish.frame.title.owner = "Example Lights";
  wish.frame.title.number = "EX-1";
  wish.frame.title.date = "2026-11-26";
  return wish;
}

std::string text_of(const Document& paper) {
  return PaperFile(pdf_of(lay_out(paper)).value()).told("pdftotext -layout", "-");
}

}  // namespace duskwire::paper
