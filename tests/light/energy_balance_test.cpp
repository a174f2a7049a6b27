// SPDX-License-Identifier: Apache-2.0
// A closed box catches what its lamps send, within 0.5 %; after one bounce, what its faces send back.
#include "light/energy_balance.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numeric>

#include "light/bounce.hpp"
#include "light/scenes.hpp"

namespace duskwire::light {
namespace {

using geometry::Point3;
using geometry::Vec3;

const ClosedBox room{{-3, -2, 0}, {3, 4, 5}};

Scene with(const Distribution& distribution, Vec3 aim) {
  Scene scene;
  scene.distributions.push_back(distribution);
  scene.lamps.push_back({.position = {0.4, 0.7, 1.1}, .aim = aim, .zero = {0.3, 1, 0.2}, .share = 0.8});
  return scene;
}

void expect_balance(const Distribution& distribution, double flux_lm) {
  for (const Vec3 aim : {Vec3{0, 0, -1}, Vec3{0, 0, 1}, Vec3{1, -0.4, 0.3}}) {
    const EnergyBalance balance = energy_balance(LitScene(with(distribution, aim)), room, 150);
    EXPECT_NEAR(balance.sent_lm, 0.8 * flux_lm, 0.005 * flux_lm);
    EXPECT_NEAR(balance.caught_lm, balance.sent_lm, 0.005 * balance.sent_lm);
  }
}

// Fluxes: closed forms of values.md 5.3, 2 pi I0 / (n + 1) and 4 pi I.
TEST(EnergyBalance, ABoxCatchesWhatItsLampSends) {
  expect_balance(testing::isotropic(100), 1256.637);
  expect_balance(testing::cosine_power(1000, 1), 3141.593);
  expect_balance(testing::cosine_power(1000, 4), 1256.637);
  expect_balance(testing::cosine_power(1000, 20), 299.199);
}

// Modulation over C leaves the flux as it is.
TEST(EnergyBalance, HoldsForPlanesThatDiffer) {
  const auto two_lobes = testing::table(15, 5, 90, [](double c, double gamma) {
    return 1000 * std::cos(gamma) * (1 + 0.5 * std::cos(c) + 0.3 * std::sin(2 * c));
  });
  expect_balance(two_lobes, 3141.593);
}

TEST(EnergyBalance, HoldsForTypesAAndB) {
  for (const PhotometricType type : {PhotometricType::a, PhotometricType::b}) {
    Distribution d;
    d.type = type;
    for (int i = -90; i <= 90; i += 5) d.horizontal_deg.push_back(i);
    d.vertical_deg = d.horizontal_deg;
    for (const double h : d.horizontal_deg) {
      for (const double v : d.vertical_deg) {
        d.intensity_cd.push_back(1000 * std::cos(h * testing::pi / 180) * std::cos(v * testing::pi / 180));
      }
    }
    // cos V cos H is the cosine to the axis in both types: a Lambertian source.
    expect_balance(d, 3141.593);
  }
}

// A plate across the whole room, h above the lamp, keeps I times the solid angle of the room's section: over a corner,
// atan(a b / (h sqrt(a^2 + b^2 + h^2))).
TEST(EnergyBalance, WhatIsSolidKeepsItsPart) {
  Scene scene = with(testing::isotropic(100), {0, 0, -1});
  testing::add_quad(scene.solid, {-9, -9, 1.6}, {18, 0, 0}, {0, 18, 0});
  const EnergyBalance balance = energy_balance(LitScene(scene), room, 150);
  const double h = 0.5;
  double solid_angle_sr = 0;
  for (const double a : {2.6, 3.4}) {
    for (const double b : {3.3, 2.7}) solid_angle_sr += std::atan(a * b / (h * std::sqrt(a * a + b * b + h * h)));
  }
  EXPECT_NEAR(balance.caught_lm, balance.sent_lm - 0.8 * 100 * solid_angle_sr, 0.005 * balance.sent_lm);
}

std::vector<MattSurface> faces(const ClosedBox& box, double reflectance) {
  const Vec3 size = box.high - box.low;
  const Vec3 x{size.x, 0, 0};
  const Vec3 y{0, size.y, 0};
  const Vec3 z{0, 0, size.z};
  return {{box.low, x, y, reflectance},    {box.low, y, z, reflectance},    {box.low, z, x, reflectance},
          {box.high, -y, -x, reflectance}, {box.high, -z, -y, reflectance}, {box.high, -x, -z, reflectance}};
}

TEST(Bounce, FacesTurnInwards) {
  const Point3 middle = room.low + 0.5 * (room.high - room.low);
  for (const MattSurface& face : faces(room, 0.5)) {
    EXPECT_GT(dot(cross(face.side, face.other), middle - face.corner), 0);
  }
}

TEST(Bounce, AClosedBoxCatchesWhatItsFacesSendBack) {
  const LitScene scene(with(testing::cosine_power(1000, 1), {0, 0.2, -1}));
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
  EXPECT_NEAR(caught_lm, bounce.sent_lm(), 0.03 * bounce.sent_lm());
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
