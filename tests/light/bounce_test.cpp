// SPDX-License-Identifier: Apache-2.0
// One bounce against closed forms: matt rectangles, two plates that face each other or meet at an edge, a closed box.
#include "light/bounce.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numeric>

#include "light/energy_balance.hpp"
#include "light/scenes.hpp"

namespace duskwire::light {
namespace {

using geometry::Point3;
using geometry::Vec3;

const ClosedBox room{{-3, -2, 0}, {3, 4, 5}};

// 100 lx on what lies level, from so far above that it is even to a thousandth.
Scene evenly_lit() {
  Scene scene;
  scene.distributions.push_back(testing::isotropic(1e8));
  scene.lamps.push_back({.position = {0, 0, 1000}});
  return scene;
}

std::vector<MattSurface> faces(const ClosedBox& box, double reflectance) {
  const Vec3 size = box.high - box.low;
  const Vec3 x{size.x, 0, 0};
  const Vec3 y{0, size.y, 0};
  const Vec3 z{0, 0, size.z};
  return {{box.low, x, y, reflectance},    {box.low, y, z, reflectance},    {box.low, z, x, reflectance},
          {box.high, -y, -x, reflectance}, {box.high, -z, -y, reflectance}, {box.high, -x, -z, reflectance}};
}

// Of the light on a parallelogram, the mean over `cells` by `cells` places.
double mean_bounced_lx(const Bounce& bounce, Point3 corner, Vec3 side, Vec3 other, int cells) {
  std::vector<Receiver> receivers;
  for (int i = 0; i < cells; ++i) {
    for (int j = 0; j < cells; ++j) {
      receivers.push_back({corner + (i + 0.5) / cells * side + (j + 0.5) / cells * other, unit(cross(side, other))});
    }
  }
  std::vector<float> lx(receivers.size(), 0);
  bounce.add_lx(receivers, lx);
  return std::accumulate(lx.begin(), lx.end(), 0.0) / static_cast<double>(lx.size());
}

// Of what one matt unit square sends, this share meets another that faces it 1 m away, and one that stands on its edge:
// the closed forms of radiative exchange between rectangles (Siegel and Howell, Thermal Radiation Heat Transfer, app.
// C, from memory; the first also drawn by lot here: 0.1998).
constexpr double facing_share = 0.199825;
constexpr double standing_share = 0.200044;

TEST(Bounce, TwoSquaresThatFaceEachOtherExchangeTheirFormFactor) {
  const LitScene scene(evenly_lit());
  const MattSurface floor{{-0.5, -0.5, 0}, {1, 0, 0}, {0, 1, 0}, 0.5};
  for (const double patch_m : {0.5, 0.1}) {
    const Bounce bounce(scene, {&floor, 1}, patch_m);
    const double mean_lx = mean_bounced_lx(bounce, {-0.5, -0.5, 1}, {0, 1, 0}, {1, 0, 0}, 20);
    EXPECT_NEAR(mean_lx, 50 * facing_share, 0.02 * 50 * facing_share) << patch_m;
  }
}

TEST(Bounce, AWallOnTheEdgeOfALitSquareGetsItsFormFactor) {
  const LitScene scene(evenly_lit());
  const MattSurface floor{{-0.5, -0.5, 0}, {1, 0, 0}, {0, 1, 0}, 0.5};
  for (const double patch_m : {0.5, 0.1}) {
    const Bounce bounce(scene, {&floor, 1}, patch_m);
    const double mean_lx = mean_bounced_lx(bounce, {-0.5, -0.5, 0}, {0, 1, 0}, {0, 0, 1}, 40);
    EXPECT_NEAR(mean_lx, 50 * standing_share, 0.025 * 50 * standing_share) << patch_m;
  }
}

// Of the whole first bounce nothing leaves a closed cube: its mean over the six faces is rho Phi / A, wherever the
// lamp.
TEST(Bounce, MeanInAClosedCubeIsReflectanceTimesFluxOverArea) {
  Scene lit;
  lit.distributions.push_back(testing::isotropic(100));
  lit.lamps.push_back({.position = {0, 0, 0}});
  const LitScene scene(std::move(lit));
  const std::vector<MattSurface> cube = faces({{-1, -1, -1}, {1, 1, 1}}, 0.5);
  const Bounce bounce(scene, cube, 0.1);
  double mean_lx = 0;
  for (const MattSurface& face : cube) mean_lx += mean_bounced_lx(bounce, face.corner, face.side, face.other, 20) / 6;
  const double expected_lx = 0.5 * 4 * testing::pi * 100 / 24;
  EXPECT_NEAR(mean_lx, expected_lx, 0.01 * expected_lx);
}

TEST(Bounce, ACrownKeepsItsPartOfWhatBounced) {
  Scene scene = evenly_lit();
  const MattSurface spot{{-0.05, -0.05, 0}, {0.1, 0, 0}, {0, 0.1, 0}, 0.5};
  const Receiver above{{0, 0, 4}, {0, 0, -1}};
  float open_lx = 0;
  const LitScene open(scene);
  Bounce(open, {&spot, 1}, 0.1).add_lx({&above, 1}, {&open_lx, 1});
  // Beside the lamp's own way to the spot, across the bounced light's: through its middle, which leaves 0.3 of it.
  scene.lamps[0].position = {700, 0, 714.14};
  scene.crowns.push_back({{0, 0, 2}, 0.8, 0.8, 0.3});
  const LitScene shaded(scene);
  const Bounce bounce(shaded, {&spot, 1}, 0.1);
  float lx = 0;
  bounce.add_lx({&above, 1}, {&lx, 1});
  const double sent = bounce.sent_lm() / Bounce(open, {&spot, 1}, 0.1).sent_lm();
  EXPECT_NEAR(lx, 0.3 * sent * open_lx, 0.01 * open_lx);
  EXPECT_GT(lx, 0);
}

TEST(Bounce, WhatIsHardlyLitSendsNothing) {
  Scene scene = evenly_lit();
  scene.lamps[0].share = 1e-4;
  const LitScene lit(scene);
  const MattSurface floor{{-0.5, -0.5, 0}, {1, 0, 0}, {0, 1, 0}, 0.5};
  EXPECT_EQ(Bounce(lit, {&floor, 1}, 0.1).patch_count(), 0u);
  scene.lamps[0].share = 1;
  EXPECT_EQ(Bounce(LitScene(scene), {&floor, 1}, 0.1).patch_count(), 100u);
}

TEST(Bounce, FacesTurnInwards) {
  const Point3 middle = room.low + 0.5 * (room.high - room.low);
  for (const MattSurface& face : faces(room, 0.5)) {
    EXPECT_GT(dot(cross(face.side, face.other), middle - face.corner), 0);
  }
}

TEST(Bounce, AClosedBoxCatchesWhatItsFacesSendBack) {
  Scene lit;
  lit.distributions.push_back(testing::cosine_power(1000, 1));
  lit.lamps.push_back({.position = {0.4, 0.7, 1.1}, .aim = {0, 0.2, -1}, .zero = {0.3, 1, 0.2}, .share = 0.8});
  const LitScene scene(std::move(lit));
  const Bounce bounce(scene, faces(room, 0.4), 0.25);
  EXPECT_NEAR(bounce.sent_lm(), 0.4 * 0.8 * 3141.593, 0.01 * 1005);
  double caught_lm = 0;
  for (const MattSurface& face : faces(room, 0.4)) {
    std::vector<Receiver> receivers;
    constexpr int cells = 24;
    for (int i = 0; i < cells; ++i) {
      for (int j = 0; j < cells; ++j) {
        receivers.push_back({face.corner + (i + 0.5) / cells * face.side + (j + 0.5) / cells * face.other,
                             unit(cross(face.side, face.other))});
      }
    }
    std::vector<float> lx(receivers.size(), 0);
    bounce.add_lx(receivers, lx);
    caught_lm += std::accumulate(lx.begin(), lx.end(), 0.0) * length(cross(face.side, face.other)) / (cells * cells);
  }
  EXPECT_NEAR(caught_lm, bounce.sent_lm(), 0.01 * bounce.sent_lm());
}

// A matt square of 2 m by 2 m evenly lit from far above sends back like the rectangle of values.md 5.3: four rectangles
// of 1 m by 1 m, seen from 1 m over their common corner. L = rho E / pi.
TEST(Bounce, ALitSquareIsAMattSource) {
  Scene scene;
  scene.distributions.push_back(testing::isotropic(1e8));
  scene.lamps.push_back({.position = {0, 0, 1000}});
  const LitScene lit(scene);
  const MattSurface square{{-1, -1, 0}, {2, 0, 0}, {0, 2, 0}, 0.5};
  const Bounce bounce(lit, {&square, 1}, 0.05);
  const std::vector<Receiver> receivers{{{0, 0, 1}, {0, 0, -1}}, {{0, 0, 1}, {0, 0, 1}}, {{0, 0, -1}, {0, 0, 1}}};
  std::vector<float> lx(3, 0);
  bounce.add_lx(receivers, lx);
  const double luminance_cd_m2 = 0.5 * 100 / testing::pi;
  EXPECT_NEAR(lx[0], 4 * 435.209876 / 1000 * luminance_cd_m2, 0.005 * 27.7);
  EXPECT_EQ(lx[1], 0);
  EXPECT_EQ(lx[2], 0);
}

TEST(Bounce, StopsAtWhatIsSolid) {
  Scene scene;
  scene.distributions.push_back(testing::isotropic(1000));
  scene.lamps.push_back({.position = {0, 0, 1}});
  testing::add_quad(scene.solid, {2, -9, -1}, {0, 18, 0}, {0, 0, 9});
  const LitScene lit(scene);
  const MattSurface floor{{-2, -2, 0}, {3, 0, 0}, {0, 4, 0}, 0.5};
  const Bounce bounce(lit, {&floor, 1}, 0.2);
  const std::vector<Receiver> receivers{{{1.9, 0, 1}, {-1, 0, 0}}, {{2.1, 0, 1}, {-1, 0, 0}}};
  std::vector<float> lx(2, 0);
  bounce.add_lx(receivers, lx);
  EXPECT_GT(lx[0], 1);
  EXPECT_EQ(lx[1], 0);
}

}  // namespace
}  // namespace duskwire::light
