// SPDX-License-Identifier: Apache-2.0
// Plans are true to scale: measured in the PDF as poppler paints it.
#include "paper/plan_drawing.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "paper/plan_legend.hpp"
#include "paper/render.hpp"
#include "read_back.hpp"

namespace duskwire::paper {
namespace {

// Two walls 20 m apart, 0.2 m thick, and a lamp.
job::Job walled_job() {
  job::Job job;
  job.title = "Walled garden";
  job.plan.property_line = {{0, 0}, {24, 0}, {24, 12}, {0, 12}};
  const auto wall = [&](double x_m) {
    job::Area area;
    area.id = "wall";
    area.kind = job::GroundKind::building;
    area.outline = {{x_m, 2}, {x_m + 0.2, 2}, {x_m + 0.2, 10}, {x_m, 10}};
    job.plan.areas.push_back(area);
  };
  wall(1.9);
  wall(21.9);
  job::Luminaire lamp;
  lamp.id = "F1";
  lamp.position = geometry::Point3{12, 10.5, 0};
  job.luminaires.push_back(lamp);
  return job;
}

Document paper_of(const job::Job& job, job::DisplayUnits units, PageSize size) {
  Document paper;
  paper.title.title = "Plan";
  paper.sections.push_back(*plan_section(job, {}, units, size, paper, "Plan"));
  return paper;
}

// Where dark runs lie on a row, as first and last element.
std::vector<std::pair<int, int>> dark_runs(const PaperFile::Painted& page, int row, int least_px) {
  std::vector<std::pair<int, int>> runs;
  int begun = -1;
  for (int x = 0; x < page.width_px; ++x) {
    const bool dark = page.grey[static_cast<std::size_t>(row) * static_cast<std::size_t>(page.width_px) +
                                static_cast<std::size_t>(x)] < 90;
    if (dark && begun < 0) begun = x;
    if (!dark && begun >= 0) {
      if (x - begun >= least_px) runs.emplace_back(begun, x);
      begun = -1;
    }
  }
  return runs;
}

TEST(PlanDrawing, AHundredMillimetresOfPaperAreTwentyMetresAtOneToTwoHundred) {
  const Document paper = paper_of(walled_job(), job::DisplayUnits::metric, PageSize::a4);
  ASSERT_EQ(paper.sections.front().scale, "1:200");
  constexpr double dots_per_mm = 20;
  const PaperFile::Painted page = PaperFile(pdf_of(lay_out(paper)).value()).painted(1, 25.4 * dots_per_mm);
  // Any row that meets both walls and nothing else between frame and legend: each wall is 1 mm with two outlines.
  double measured_mm = 0;
  for (int row = 0; row < page.height_px && measured_mm == 0; row += 7) {
    std::vector<double> middles_mm;
    for (const auto& [from, to] : dark_runs(page, row, static_cast<int>(0.4 * dots_per_mm))) {
      const double middle_mm = (from + to) / 2.0 / dots_per_mm;
      // Left outlines of the walls: another dark line follows 1 mm to the right.
      if (middle_mm > 22 && middle_mm < 230) middles_mm.push_back(middle_mm);
    }
    if (middles_mm.size() == 4) measured_mm = middles_mm[2] - middles_mm[0];
  }
  EXPECT_NEAR(measured_mm, 100, 0.1);
}

TEST(PlanDrawing, TheScaleBarIsAsLongAsItSays) {
  const Document paper = paper_of(walled_job(), job::DisplayUnits::metric, PageSize::a4);
  const ScaleBar bar = scale_bar({200, "1:200"}, job::DisplayUnits::metric, legend_column_mm - 9);
  ASSERT_EQ(bar.part, 2);
  ASSERT_EQ(bar.parts, 3);
  constexpr double dots_per_mm = 20;
  const PaperFile::Painted page = PaperFile(pdf_of(lay_out(paper)).value()).painted(1, 25.4 * dots_per_mm);
  // Its dark parts: the first and the third of three, 10 mm each, and nothing else on the sheet is like that.
  double parts_mm = 0;
  double whole_mm = 0;
  for (int row = 0; row < page.height_px; ++row) {
    const auto runs = dark_runs(page, row, static_cast<int>(8 * dots_per_mm));
    if (runs.size() != 2 || runs[0].second - runs[0].first > 12 * dots_per_mm) continue;
    // The outline is 0.18 mm wide: half of it lies beyond each end.
    parts_mm = (runs[0].second - runs[0].first) / dots_per_mm - 0.18;
    whole_mm = (runs[1].second - runs[0].first) / dots_per_mm - 0.18;
    break;
  }
  EXPECT_NEAR(parts_mm, 2 * 1000.0 / 200, 0.1);
  EXPECT_NEAR(whole_mm, 6 * 1000.0 / 200, 0.1);
}

TEST(PlanDrawing, UsesTheScalesOfItsCountry) {
  EXPECT_EQ(paper_of(walled_job(), job::DisplayUnits::us, PageSize::letter).sections.front().scale, "1 in = 10 ft");
  for (const PlanScale& scale : usual_scales(job::DisplayUnits::us)) {
    // An inch of paper is a whole number of quarter feet.
    EXPECT_NEAR(std::remainder(scale.ratio, 12.0), 0, 1e-9) << scale.words;
  }
}

TEST(PlanDrawing, GrowsToALargerSheetBeforeAGardenGetsTooSmall) {
  job::Job job = walled_job();
  job.plan.property_line = {{0, 0}, {80, 0}, {80, 60}, {0, 60}};
  EXPECT_EQ(paper_of(job, job::DisplayUnits::metric, PageSize::a4).sections.front().setup.size, PageSize::a3);
  EXPECT_EQ(paper_of(walled_job(), job::DisplayUnits::metric, PageSize::a4).sections.front().setup.size, PageSize::a4);
}

TEST(PlanDrawing, ALegendHoldsOnlyWhatIsOnThePlan) {
  job::Job job = walled_job();
  job::LuminaireItem item;
  item.id = "path";
  item.kind = job::LuminaireKind::path;
  job.catalogue.luminaires.push_back(item);
  job.luminaires.front().item = "path";
  std::vector<std::string> texts;
  for (const LegendEntry& entry : legend_of(job, {})) texts.push_back(entry.text);
  EXPECT_EQ(texts, (std::vector<std::string>{"1 \u00d7 path light", "property line", "building"}));
}

TEST(PlanDrawing, WithoutAnyPlaceThereIsNoPlan) {
  EXPECT_FALSE(plan_drawing(job::Job{}, {}, job::DisplayUnits::metric, 180, 200).has_value());
}

}  // namespace
}  // namespace duskwire::paper
