// SPDX-License-Identifier: Apache-2.0
#include "paper/wiring_tree.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <set>

#include "crew_jobs.hpp"
#include "paper/wiring_diagram.hpp"

namespace duskwire::paper {
namespace {

study::CrewStep step(const std::string& from, const std::string& to) {
  study::CrewStep made;
  made.from = from;
  made.to = to;
  return made;
}

study::CrewRun run(std::vector<study::CrewStep> steps) {
  study::CrewRun made;
  made.output = "A";
  made.steps = std::move(steps);
  return made;
}

TEST(WiringTree, AChainStaysInOneLane) {
  const WiringTree tree = wiring_tree({run({step("A", "1"), step("1", "2"), step("2", "3")})});
  EXPECT_EQ(tree.lanes, 1u);
  ASSERT_EQ(tree.rows.size(), 4u);
  EXPECT_EQ(tree.rows[0].step, no_step) << "the output itself";
  ASSERT_EQ(tree.lines.size(), 3u);
  EXPECT_EQ(tree.lines[0].from_row, 0u);
  EXPECT_EQ(tree.lines[0].to_row, 1u);
}

TEST(WiringTree, TheLongestWayGoesStraightOn) {
  // 1 has a short branch to 2 and the way on to 3 and 4.
  const WiringTree tree = wiring_tree({run({step("A", "1"), step("1", "3"), step("3", "4"), step("1", "2")})});
  EXPECT_EQ(tree.lanes, 2u);
  ASSERT_EQ(tree.rows.size(), 5u);
  EXPECT_EQ(tree.rows[2].step, 3u) << "the branch stands before the way on";
  EXPECT_EQ(tree.rows[2].lane, 1u);
  EXPECT_EQ(tree.rows[2].parent_lane, 0u);
  EXPECT_EQ(tree.rows[3].step, 1u);
  EXPECT_EQ(tree.rows[3].lane, 0u);
}

TEST(WiringTree, EveryStepHasOneRowAndLanesStayFew) {
  const CrewGarden garden = crew_garden(60);
  const WiringTree tree = wiring_tree(garden.set.runs);
  std::set<std::pair<std::uint32_t, std::uint32_t>> seen;
  std::size_t steps = 0;
  for (const study::CrewRun& each : garden.set.runs) steps += each.steps.size() + 1;
  for (const TreeRow& row : tree.rows) EXPECT_TRUE(seen.insert({row.run, row.step}).second);
  EXPECT_EQ(tree.rows.size(), steps);
  EXPECT_LE(tree.lanes, std::log2(static_cast<double>(steps)) + 1);
}

TEST(WiringTree, TheDiagramGoesOverSheetsThatHoldIt) {
  const CrewGarden garden = crew_garden(60);
  constexpr double height_mm = 240;
  const std::vector<Drawing> sheets = wiring_diagram(garden.set, job::DisplayUnits::metric, 180, height_mm);
  EXPECT_GT(sheets.size(), 1u);
  for (const Drawing& sheet : sheets) {
    EXPECT_LE(sheet.height_mm, height_mm);
    EXPECT_EQ(sheet.width_mm, 180);
    EXPECT_NE(sheet.alternative.find("Wiring diagram"), std::string::npos);
  }
  EXPECT_TRUE(wiring_diagram({}, job::DisplayUnits::metric, 180, height_mm).empty());
}

}  // namespace
}  // namespace duskwire::paper
