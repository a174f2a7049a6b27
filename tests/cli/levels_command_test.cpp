// SPDX-License-Identifier: Apache-2.0
// The commands levels and choose as a user runs them.
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "program.hpp"

namespace duskwire::cli {
namespace {

using Json = nlohmann::ordered_json;

TEST(LevelsCommand, TheDemoPutRightIsFitToBeLitAndTheOneAsPlannedIsNot) {
  const Workplace place;
  EXPECT_EQ(place.run("duskwire levels examples/ostrey-garden-sound.json").code, 0);
  const Ended planned = place.run("duskwire levels examples/ostrey-garden.json");
  EXPECT_EQ(planned.code, 1);
  EXPECT_NE(planned.text.find("is visible from Neighbour's bedroom"), std::string::npos) << planned.text;
}

TEST(LevelsCommand, JsonHasPlacesSightsAndThePlan) {
  const Workplace place;
  const Ended run = place.run("duskwire levels examples/ostrey-garden-sound.json --json");
  ASSERT_TRUE(Json::accept(run.text)) << run.complaint;
  const Json levels = Json::parse(run.text);
  EXPECT_EQ(levels.at("targets"), "garden");
  EXPECT_EQ(levels.at("lamps").size(), 40u);
  EXPECT_EQ(levels.at("sights").size(), 200u);  // five view points
  const Json& plan = levels.at("plan");
  EXPECT_EQ(plan.at("lx").size(), plan.at("columns").get<std::size_t>() * plan.at("rows").get<std::size_t>());
  EXPECT_FALSE(plan.at("contours").empty());
}

TEST(LevelsCommand, ThePlanIsDrawnAsItsNameEnds) {
  const Workplace place;
  EXPECT_EQ(place.run("duskwire levels examples/ostrey-garden-sound.json --plan night.png").code, 0);
  EXPECT_EQ(place.read("night.png").substr(1, 3), "PNG");
  EXPECT_EQ(place.run("duskwire levels examples/ostrey-garden-sound.json --plan pools.svg --pools").code, 0);
  EXPECT_NE(place.read("pools.svg").find("<svg"), std::string::npos);
  const Ended refused = place.run("duskwire levels examples/ostrey-garden-sound.json --plan night.bmp");
  EXPECT_EQ(refused.code, 2);
  EXPECT_NE(refused.complaint.find(".png"), std::string::npos);
}

TEST(LevelsCommand, AnUnknownSetIsRefusedWithThoseThatThereAre) {
  const Workplace place;
  const Ended run = place.run("duskwire levels examples/ostrey-garden-sound.json --targets moon");
  EXPECT_EQ(run.code, 2);
  EXPECT_NE(run.complaint.find("en-13201"), std::string::npos);
}

TEST(LevelsCommand, SourcesStandBesideEachOther) {
  const Workplace place;
  const Ended run = place.run("duskwire levels examples/ostrey-garden-sound.json --full");
  EXPECT_NE(run.text.find("P5"), std::string::npos);
  EXPECT_NE(run.text.find("Path away from"), std::string::npos);
}

TEST(ChooseCommand, ATypedCrownIsAnsweredWithItsBeam) {
  const Workplace place;
  const Ended run = place.run("duskwire choose --crown 5m:2m:7.5m --setback 1.5m");
  EXPECT_EQ(run.code, 0) << run.complaint;
  EXPECT_NE(run.text.find("1.3 m spot on a 5 m"), std::string::npos) << run.text;
}

TEST(ChooseCommand, AllSlipsAreNamedAtOnce) {
  const Workplace place;
  const Ended run = place.run("duskwire choose --crown 5m:2m --setback far");
  EXPECT_EQ(run.code, 2);
  EXPECT_NE(run.complaint.find("--crown"), std::string::npos);
  EXPECT_NE(run.complaint.find("--setback"), std::string::npos);
}

TEST(ChooseCommand, NothingToLightIsRefused) {
  const Workplace place;
  EXPECT_EQ(place.run("duskwire choose").code, 2);
  EXPECT_EQ(place.run("duskwire choose examples/ostrey-garden.json --tree elm").code, 2);
}

}  // namespace
}  // namespace duskwire::cli
