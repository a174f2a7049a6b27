// SPDX-License-Identifier: Apache-2.0
#include "formats/levels_json.hpp"

#include <gtest/gtest.h>

#include "formats/light_requests.hpp"

namespace duskwire::formats {
namespace {

study::Levels with_plan() {
  study::Levels levels;
  study::NightPlan plan;
  plan.origin = {1, 2};
  plan.cell_m = 0.25;
  plan.columns = 2;
  plan.rows = 2;
  plan.lx = {0.123456F, -1.0F, 12.3456F, 0.0F};
  plan.contours = {{0.5, {{{1.00049, 2.0}, {1.5, 2.5}}}}};
  levels.plan = plan;
  return levels;
}

TEST(LevelsJson, TheRasterHasThreeFiguresAndMinusOneWhereNoGroundIs) {
  const Json out = levels_json(with_plan());
  EXPECT_EQ(compact_text(out["plan"]["lx"]), "[0.123,-1,12.3,0]");
  EXPECT_EQ(compact_text(out["plan"]["contours"][0]["lines"]), "[[[1,2],[1.5,2.5]]]");
  EXPECT_EQ(compact_text(out["plan"]["origin"]), "[1,2]");
}

TEST(LevelsJson, WithoutAPlanThereIsNone) {
  study::Levels levels = with_plan();
  levels.plan.reset();
  EXPECT_FALSE(levels_json(levels).contains("plan"));
}

TEST(LightRequests, OptionsOfLevelsAreRead) {
  const auto read = read_levels_request(R"({"targets": "dark-sky", "property_line_limit_lx": 1, "plan": false})");
  ASSERT_TRUE(read.request);
  EXPECT_EQ(read.request->targets, "dark-sky");
  EXPECT_EQ(read.request->property_line_limit_lx, 1);
  EXPECT_FALSE(read.request->plan);
  EXPECT_FALSE(read_levels_request(R"({"cell_m": 0})").request);
}

TEST(LightRequests, TheTargetOfAChoiceIsRead) {
  const auto read = read_choose_request(R"({"area": "walk", "longest_m": 2.44, "risers_m": [9]})");
  ASSERT_TRUE(read.request);
  EXPECT_EQ(read.request->area, "walk");
  EXPECT_EQ(read.request->longest_m, 2.44);
  ASSERT_EQ(read.request->risers_m.size(), 1u);
  EXPECT_FALSE(read_choose_request(R"({"setback_m": -1})").request);
}

}  // namespace
}  // namespace duskwire::formats
