// SPDX-License-Identifier: Apache-2.0
// A photograph of the demo by night, as a command.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "pictures/codec.hpp"
#include "program.hpp"

namespace duskwire::cli {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;
using Json = nlohmann::json;

const std::string demo = "duskwire night examples/ostrey-garden.json --view front --width 400 ";

class NightCommand : public ::testing::Test {
 protected:
  [[nodiscard]] pictures::Picture made(const std::string& options) const {
    const Ended run = place_.run(demo + "--output night.png --force " + options);
    EXPECT_EQ(run.code, 0) << run.complaint;
    const auto decoded = pictures::decode(place_.read("night.png"));
    EXPECT_TRUE(decoded.ok());
    return decoded.ok() ? decoded.value().picture : pictures::Picture{400, 1, 3, std::vector<std::uint8_t>(1200)};
  }
  // Mean of the three parts over a few elements, at shares of the photograph's size.
  static double brightness(const pictures::Picture& picture, double x, double y) {
    constexpr std::uint32_t photograph_height_px = 267;
    double sum = 0;
    int count = 0;
    for (int dy = -3; dy <= 3; ++dy) {
      for (int dx = -3; dx <= 3; ++dx) {
        const auto column = static_cast<std::size_t>(x * picture.width_px + dx);
        const auto row = static_cast<std::size_t>(y * photograph_height_px + dy);
        for (std::size_t c = 0; c < 3; ++c) {
          sum += picture.elements[(row * picture.width_px + column) * picture.channels + c];
          ++count;
        }
      }
    }
    return sum / count;
  }

  Workplace place_;
};

TEST_F(NightCommand, LightsTheFrontAndTheOakAndLeavesTheSkyDark) {
  const pictures::Picture picture = made("");
  EXPECT_EQ(picture.width_px, 400u);
  EXPECT_GT(picture.height_px, 267u + 10) << "the caption's strip";
  const double sky = brightness(picture, 0.6, 0.08);
  EXPECT_GT(brightness(picture, 0.52, 0.62), sky + 40) << "the front between the windows";
  EXPECT_GT(brightness(picture, 0.12, 0.40), sky + 15) << "the oak";
  EXPECT_LT(sky, 60);
}

TEST_F(NightCommand, SaysWhatItIsAndWhatWasAssumed) {
  const Ended run = place_.run(demo + "--output night.png");
  EXPECT_EQ(run.code, 0) << run.complaint;
  EXPECT_THAT(run.text, HasSubstr("calculated impression"));
  EXPECT_THAT(run.text, HasSubstr("House front 0.50"));
  EXPECT_THAT(run.text, HasSubstr("lamps on"));
  EXPECT_THAT(place_.files(), ElementsAre("night.png"));
}

TEST_F(NightCommand, MachinesGetTheFacts) {
  const Ended run = place_.run(demo + "--output night.jpg --json");
  ASSERT_TRUE(Json::accept(run.text)) << run.text << run.complaint;
  const Json facts = Json::parse(run.text);
  EXPECT_EQ(facts["width_px"], 400);
  EXPECT_EQ(facts["height_px"], 267);
  EXPECT_EQ(facts["lamps"].size(), 40u);
  EXPECT_GT(facts["adaptation_cd_m2"], 0.01);
}

TEST_F(NightCommand, MoreExposureIsBrighterAndSameIsTheSame) {
  const pictures::Picture plain = made("");
  const pictures::Picture again = made("");
  const pictures::Picture bright = made("--exposure 1.5");
  EXPECT_EQ(plain.elements, again.elements);
  EXPECT_GT(brightness(bright, 0.52, 0.62), brightness(plain, 0.52, 0.62) + 10);
}

TEST_F(NightCommand, RefusesWithTheNextStep) {
  const auto complaint = [&](const std::string& line) {
    const Ended run = place_.run(line);
    EXPECT_EQ(run.code, 2) << line;
    EXPECT_EQ(run.text, "") << line;
    return run.complaint;
  };
  EXPECT_THAT(complaint(demo), HasSubstr("--output FILE.png"));
  EXPECT_THAT(complaint("duskwire night examples/ostrey-garden.json --view frint --output n.png"),
              HasSubstr("Did you mean front?"));
  EXPECT_THAT(complaint("duskwire night examples/small-garden.json --output n.png"), HasSubstr("has no view"));
  EXPECT_THAT(complaint(demo + "--output n.png --photo examples/lamps.csv"), HasSubstr("icture"));
  place_.write("there.png", "x");
  EXPECT_THAT(complaint(demo + "--output there.png"), HasSubstr("--force"));
  place_.write("alone.json", project_file("examples/ostrey-garden.json"));
  EXPECT_THAT(complaint("duskwire night alone.json --output n.png"), HasSubstr("--photo FILE"));
  EXPECT_THAT(place_.files(), ElementsAre("alone.json", "there.png"));
}

}  // namespace
}  // namespace duskwire::cli
