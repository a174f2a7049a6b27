// SPDX-License-Identifier: Apache-2.0
// The commissioning sheet read back from its PDF by poppler: every place with its volts, its drop and its tolerance.
#include "paper/commissioning_paper.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "crew_jobs.hpp"
#include "read_back.hpp"

namespace duskwire::paper {
namespace {

TEST(CommissioningPaper, PrintsWhatEachPlaceShouldRead) {
  const CrewGarden garden = crew_garden(16);
  const std::string text = on_one_line(text_of(commissioning_paper(crew_wish(garden), garden.job, garden.set)));
  std::size_t places = 0;
  for (const study::CommissioningOutput& output : garden.set.commissioning.outputs) {
    if (output.rows.empty()) continue;
    EXPECT_NE(text.find(fmt::format("{:.2f} \u00b1 {:.2f}", output.current_a, output.tolerance_a)), std::string::npos)
        << output.output;
    for (const study::CommissioningRow& row : output.rows) {
      const std::string printed =
          fmt::format("{:.2f} {:.2f} \u00b1 {:.2f}", row.nominal_v, row.drop_v, row.tolerance_v);
      EXPECT_NE(text.find(printed), std::string::npos) << row.id << ": " << printed;
      EXPECT_NE(text.find(row.id), std::string::npos);
      ++places;
    }
  }
  EXPECT_EQ(places, garden.job.luminaires.size() + garden.job.joints.size());
}

TEST(CommissioningPaper, LeavesBlanksForWhatIsReadAndSaysWhatItRestsOn) {
  const CrewGarden garden = crew_garden(10);
  const std::string text = on_one_line(text_of(commissioning_paper(crew_wish(garden), garden.job, garden.set)));
  for (const char* asked :
       {"Date and time", "Meter and clamp", "Weather, soil", "Mains, lamps on (120 V nominal)", "Read, V", "Read, A",
        "Output less", "common practice, no source", "Predicted, not measured", "is not a pass", "Checked by, date"}) {
    EXPECT_NE(text.find(asked), std::string::npos) << asked;
  }
}

}  // namespace
}  // namespace duskwire::paper
