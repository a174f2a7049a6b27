// SPDX-License-Identifier: Apache-2.0
// The commands about photographs, run as typed: the story of a first answer, and a view whose corners were projected by
// hand from a camera that stands square on.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "program.hpp"

namespace duskwire::cli {
namespace {

using ::testing::HasSubstr;

const std::string story =
    "duskwire look --known door:2.03m:410px --thing tree:1480px --note "
    "\"front steps are scary, I love the tree, bedroom is above the porch\"";

TEST(Look, TellsTheStoryOfTheFirstPhotograph) {
  const Workplace place;
  const Ended run = place.run(story);
  EXPECT_EQ(run.code, 0) << run.complaint;
  EXPECT_THAT(run.text, HasSubstr("tree: 7.33 m"));
  EXPECT_THAT(run.text, HasSubstr("15 %"));
  EXPECT_LT(run.text.find("1. steps"), run.text.find("2. tree"));
  EXPECT_THAT(run.text, HasSubstr("\"bedroom is above the porch\""));
  for (const char* asked : {"outlet", "pool", "after dark", "600 to 2800 USD"}) EXPECT_THAT(run.text, HasSubstr(asked));
}

TEST(Look, SaysTheSameAsJson) {
  const Workplace place;
  const Ended run = place.run(story + " --json");
  ASSERT_EQ(run.code, 0) << run.complaint;
  const auto tree = nlohmann::json::parse(run.text);
  EXPECT_NEAR(tree["sizes"][0]["size_m"].get<double>(), 7.33, 0.01);
  EXPECT_NEAR(tree["sizes"][0]["error_pct"].get<double>(), 15, 0.1);
  EXPECT_EQ(tree["effects"][0]["feature"], "steps");
  EXPECT_EQ(tree["eyes"].size(), 1u);
  EXPECT_LT(tree["price"]["low_minor"], tree["price"]["high_minor"]);
}

TEST(Look, WhatIsTypedWronglyIsSaid) {
  const Workplace place;
  EXPECT_THAT(place.run("duskwire look").complaint, HasSubstr("door:2.03m:410px"));
  EXPECT_THAT(place.run("duskwire look --known door:410").complaint, HasSubstr("door:2.03m:410px"));
  const Ended run = place.run("duskwire look --known door:2.03m:410 --thing tree");
  EXPECT_EQ(run.code, 2);
  EXPECT_THAT(run.complaint, HasSubstr("tree:1480px"));
}

// A wall of 8 m by 3 m from 12 m in front of its middle, 1.5 m up, 3000 px: 250 px a metre.
std::string job_with_view() {
  auto job = nlohmann::json::parse(project_file("examples/small-garden.json"));
  job["views"] = nlohmann::json::parse(R"([{"id": "front", "image": "front.jpg", "width_px": 4000, "height_px": 3000,
    "calibration": {"method": "vanishing_points", "wall": {"left": [0, 0, 0], "right": [8, 0, 0], "height_m": 3,
      "corners_px": [[1000, 1875], [3000, 1875], [3000, 1125], [1000, 1125]]}},
    "surfaces": [{"id": "wall", "outline_px": [[1000, 1875], [3000, 1875], [3000, 1125]], "on_plane": [0, 0, 0],
      "normal": [0, -1, 0]}],
    "measures": [{"id": "door", "surface": "wall", "from_px": [1500, 1875], "to_px": [1500, 1367.5]}]}])");
  return job.dump();
}

TEST(Measure, MeasuresOnTheWallAndSaysThatTheLensIsNotTold) {
  const Workplace place;
  place.write("job.json", job_with_view());
  const Ended run = place.run("duskwire measure job.json --view front");
  EXPECT_EQ(run.code, 1) << run.complaint;
  EXPECT_THAT(run.text, HasSubstr("2.03 m"));
  EXPECT_THAT(run.text, HasSubstr("square on"));
  const auto tree = nlohmann::json::parse(place.run("duskwire measure job.json --json").text);
  EXPECT_EQ(tree["focal_from"], "assumed");
  EXPECT_NEAR(tree["measures"][0]["length_m"].get<double>(), 2.03, 0.01);
  EXPECT_THAT(place.run("duskwire measure job.json --view back").complaint, HasSubstr("There are front"));
  EXPECT_THAT(place.run("duskwire measure examples/small-garden.json").complaint, HasSubstr("no view"));
}

}  // namespace
}  // namespace duskwire::cli
