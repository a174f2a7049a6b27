// SPDX-License-Identifier: Apache-2.0
// A closed box catches what its lamps send, within 0.5 %.
#include "light/energy_balance.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "light/scenes.hpp"

namespace duskwire::light {
namespace {

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

}  // namespace
}  // namespace duskwire::light
