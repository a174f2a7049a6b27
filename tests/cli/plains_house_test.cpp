// SPDX-License-Identifier: Apache-2.0
// A real photograph through the whole program: the long wall of a small house fixes the camera, the gable is measured,
// two wall washes and an uplight show it by night (tests/reference/photos; sizes invented for the exercise).
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "pictures/codec.hpp"
#include "program.hpp"

namespace duskwire::cli {
namespace {

using Json = nlohmann::json;

struct Tone {
  double red = 0;
  double green = 0;
  double blue = 0;
  [[nodiscard]] double mean() const { return (red + green + blue) / 3; }
};

class PlainsHouse : public ::testing::Test {
 protected:
  PlainsHouse() {
    place_.write("plains-house.json", job_.dump());
    place_.write("plains-house.jpg", project_file("tests/reference/photos/plains-house.jpg"));
  }

  [[nodiscard]] pictures::Picture night() const {
    const Ended run =
        place_.run("duskwire night plains-house.json --photo plains-house.jpg --output night.png --force");
    EXPECT_EQ(run.code, 0) << run.complaint;
    const auto decoded = pictures::decode(place_.read("night.png"));
    EXPECT_TRUE(decoded.ok());
    return decoded.ok() ? decoded.value().picture
                        : pictures::Picture{1024, 788, 3, std::vector<std::uint8_t>(std::size_t{3} * 1024 * 788)};
  }

  // Mean over a square of 13 elements.
  static Tone tone(const pictures::Picture& picture, int x_px, int y_px) {
    constexpr int reach = 6;
    constexpr double count = (2 * reach + 1) * (2 * reach + 1);
    Tone sum;
    for (int y = y_px - reach; y <= y_px + reach; ++y) {
      for (int x = x_px - reach; x <= x_px + reach; ++x) {
        const std::size_t at = (static_cast<std::size_t>(y) * picture.width_px + static_cast<std::size_t>(x)) *
                               static_cast<std::size_t>(picture.channels);
        sum.red += picture.elements[at] / count;
        sum.green += picture.elements[at + 1] / count;
        sum.blue += picture.elements[at + 2] / count;
      }
    }
    return sum;
  }

  Json job_ = Json::parse(project_file("tests/reference/photos/plains-house.json"));
  Workplace place_;
};

// Places on the photograph.
constexpr int wall_x = 880, wall_y = 390;      // the long wall between its windows
constexpr int gable_x = 690, gable_y = 400;    // over the uplight, beside the door
constexpr int corner_x = 556, corner_y = 440;  // the gable's far foot, beside the uplight's beam
constexpr int roof_x = 800, roof_y = 270;
constexpr int ground_x = 300, ground_y = 650;
constexpr int sky_x = 300, sky_y = 200;

TEST_F(PlainsHouse, TheGableIsMeasuredWithinEightPercentFromTheLongWallsWidth) {
  const Ended run = place_.run("duskwire measure plains-house.json --view front --json");
  ASSERT_FALSE(run.text.empty()) << run.complaint;
  const Json found = Json::parse(run.text);
  EXPECT_NEAR(found.at("measures").at(0).at("length_m").get<double>(), 3.7, 0.08 * 3.7);
  EXPECT_NEAR(found.at("adjoining_width_m").get<double>(), 3.7, 0.08 * 3.7);
  EXPECT_LT(found.at("residual_px").get<double>(), 2);
}

TEST_F(PlainsHouse, WashesLightTheLongWallAndTheUplightTheGableWhileTheRestStaysDark) {
  const pictures::Picture picture = night();
  ASSERT_EQ(picture.width_px, 1024u);
  ASSERT_GT(picture.height_px, 788u + 10) << "the caption's strip";
  const double dark = 60;
  EXPECT_LT(tone(picture, sky_x, sky_y).mean(), dark);
  EXPECT_LT(tone(picture, ground_x, ground_y).mean(), dark);
  EXPECT_LT(tone(picture, roof_x, roof_y).mean(), dark) << "no lamp reaches the roof";
  EXPECT_LT(tone(picture, corner_x, corner_y).mean(), dark) << "beside the beam";
  EXPECT_GT(tone(picture, wall_x, wall_y).mean(), 130);
  EXPECT_GT(tone(picture, gable_x, gable_y).mean(), 130);
}

TEST_F(PlainsHouse, LampsAreWarmAndTheSkyIsBlue) {
  const pictures::Picture picture = night();
  const Tone wall = tone(picture, wall_x, wall_y);
  EXPECT_GT(wall.red, wall.blue + 8);
  const Tone sky = tone(picture, sky_x, sky_y);
  EXPECT_GT(sky.blue, sky.red + 5);
}

TEST_F(PlainsHouse, EachLampLightsItsOwnWall) {
  const double gable_lit = tone(night(), gable_x, gable_y).mean();
  job_["luminaires"][2]["dim_pct"] = 0;
  place_.write("plains-house.json", job_.dump());
  const pictures::Picture without = night();
  EXPECT_LT(tone(without, gable_x, gable_y).mean(), 0.3 * gable_lit);
  EXPECT_GT(tone(without, wall_x, wall_y).mean(), 130);
}

}  // namespace
}  // namespace duskwire::cli
