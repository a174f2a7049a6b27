// SPDX-License-Identifier: Apache-2.0
// The quick way through blocks against the law of the point written out in double precision, and shadows, crowns and
// faint lamps against geometry that can be checked by hand.
#include "light/illuminance.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <functional>
#include <numeric>
#include <random>

#include "light/scenes.hpp"
#include "light/unshadowed.hpp"

namespace duskwire::light {
namespace {

using geometry::Point3;
using geometry::Vec3;

std::vector<float> all_lx(const LitScene& scene, std::span<const Receiver> receivers, const Care& care = {}) {
  std::vector<float> lx(receivers.size(), -1);
  EXPECT_TRUE(scene.illuminance_lx(receivers, lx, care));
  return lx;
}

float one_lx(const LitScene& scene, const Receiver& receiver, const Care& care = {}) {
  return all_lx(scene, {&receiver, 1}, care)[0];
}

double by_law_lx(const Scene& scene, const Lamp& lamp, const Receiver& receiver) {
  const Vec3 way = receiver.position - lamp.position;
  const double distance_m = length(way);
  const double towards = -dot(way, receiver.normal) / distance_m;
  if (towards <= 0) return 0;
  const Vec3 aim = unit(lamp.aim);
  const Vec3 x = unit(lamp.zero - dot(lamp.zero, aim) * aim);
  const Vec3 y = cross(-aim, x);
  const double cd = direction_cd(scene.distributions[lamp.distribution], {dot(way, x), dot(way, y), -dot(way, aim)});
  return lamp.share * cd * towards / (distance_m * distance_m);
}

Scene lamps_without_solids(std::mt19937& random) {
  std::uniform_real_distribution<double> between(-1, 1);
  Scene scene;
  scene.distributions.push_back(testing::cosine_power(900, 4));
  scene.distributions.push_back(testing::table(30, 5, 180, [](double c, double gamma) {
    return (1.2 + std::cos(c) * std::sin(gamma)) * (60 + 40 * std::cos(gamma));
  }));
  for (int i = 0; i < 12; ++i) {
    Lamp lamp;
    lamp.position = {9 * between(random), 9 * between(random), 1 + between(random)};
    lamp.aim = {between(random), between(random), between(random)};
    lamp.zero = {between(random), between(random), between(random)};
    lamp.distribution = static_cast<std::uint32_t>(i) % 2;
    lamp.share = 0.4 + 0.05 * i;
    scene.lamps.push_back(lamp);
  }
  return scene;
}

// Rows of a sloping field and a scatter of single places, as the night view and the levels ask.
std::vector<Receiver> many_receivers(std::mt19937& random) {
  std::uniform_real_distribution<double> between(-1, 1);
  std::vector<Receiver> receivers;
  const Vec3 slope = unit(Vec3{0.1, -0.2, 1});
  for (int y = -20; y < 20; ++y) {
    for (int x = -30; x < 30; ++x) receivers.push_back({{0.3 * x, 0.3 * y, 0.03 * x + 0.06 * y}, slope});
  }
  for (int i = 0; i < 333; ++i) {
    receivers.push_back({{11 * between(random), 11 * between(random), 2 * between(random)},
                         unit(Vec3{between(random), between(random), between(random)})});
  }
  return receivers;
}

TEST(Illuminance, BlocksAgreeWithTheLawOfThePoint) {
  for (std::uint32_t seed = 1; seed <= 5; ++seed) {
    std::mt19937 random(seed);
    const LitScene scene(lamps_without_solids(random));
    const auto receivers = many_receivers(random);
    const auto lx = all_lx(scene, receivers);
    for (std::size_t i = 0; i < receivers.size(); ++i) {
      double expected_lx = 0;
      for (const Lamp& lamp : scene.scene().lamps) expected_lx += by_law_lx(scene.scene(), lamp, receivers[i]);
      ASSERT_NEAR(double{lx[i]}, expected_lx, 1e-3 + 3e-4 * expected_lx) << "seed " << seed << ", place " << i;
    }
  }
}

TEST(Illuminance, LampsAddUp) {
  std::mt19937 random(8);
  const LitScene scene(lamps_without_solids(random));
  const auto receivers = many_receivers(random);
  std::vector<float> sum_lx(receivers.size(), 0);
  for (std::uint32_t lamp = 0; lamp < scene.scene().lamps.size(); ++lamp) {
    scene.add_lamp_lx(lamp, receivers, sum_lx);
  }
  const auto lx = all_lx(scene, receivers);
  for (std::size_t i = 0; i < lx.size(); ++i) ASSERT_NEAR(sum_lx[i], lx[i], 1e-5F * lx[i]);
  std::vector<float> ready_lx(receivers.size(), 0);
  const auto blocks = blocks_of(receivers);
  for (std::uint32_t lamp = 0; lamp < scene.scene().lamps.size(); ++lamp) scene.add_lamp_lx(lamp, blocks, ready_lx);
  EXPECT_EQ(ready_lx, sum_lx);
}

TEST(Illuminance, NoPlaceOfABlockGetsMoreThanItsBound) {
  std::mt19937 random(9);
  const Scene scene = lamps_without_solids(random);
  const auto receivers = many_receivers(random);
  int bounded = 0;
  for (const Lamp& lamp : scene.lamps) {
    const LampFrame frame = lamp_frame(lamp);
    const LookupGrid grid = lookup_grid(scene.distributions[lamp.distribution]);
    for (std::size_t i = 0; i + 50 <= receivers.size(); i += 50) {
      ReceiverBlock block;
      fill_block(std::span(receivers).subspan(i, 50), block);
      const float most_lx = at_most_lx(frame, grid, block);
      ReceiverBlock::Numbers lx;
      unshadowed_lx(frame, grid, block, lx);
      EXPECT_LE(*std::max_element(lx.begin(), lx.end()), most_lx * 1.0001F);
      if (most_lx < 1) ++bounded;
    }
  }
  EXPECT_GT(bounded, 10);
}

TEST(Illuminance, FaintLampsAreLeftOut) {
  Scene scene;
  scene.distributions.push_back(testing::isotropic(100));
  scene.lamps.push_back({.position = {0, 0, 10}});
  const LitScene lit(scene);
  const Receiver below{{0, 0, 0}};  // 100 / 10^2 = 1 lx
  EXPECT_NEAR(one_lx(lit, below), 1, 1e-5);
  EXPECT_NEAR(one_lx(lit, below, {.faint_lx = 0.99}), 1, 1e-5);
  EXPECT_EQ(one_lx(lit, below, {.faint_lx = 1.01}), 0);
}

// A lamp 2 m up, a wall 1 m high and 2 m away along x: its shadow ends 4 m away.
class ShadowOfAWall : public ::testing::Test {
 protected:
  ShadowOfAWall() {
    scene.distributions.push_back(testing::isotropic(1000));
    scene.lamps.push_back({.position = {0, 0, 2}});
    testing::add_quad(scene.solid, {2, -50, 0}, {0, 100, 0}, {0, 0, 1});
    testing::add_quad(scene.solid, {-50, -50, 0}, {100, 0, 0}, {0, 100, 0});
  }
  Scene scene;
};

TEST_F(ShadowOfAWall, EndsWhereTheRayOverItsTopMeetsTheGround) {
  const LitScene lit(scene);
  for (double x_m = 0.05; x_m < 8; x_m += 0.1) {
    const bool dark = x_m > 2 && x_m < 4;
    EXPECT_EQ(one_lx(lit, {{x_m, 0.3, 0}}) == 0, dark) << x_m;
  }
}

TEST_F(ShadowOfAWall, TheLitSideIsLitDownToItsFootAndTheOtherIsDark) {
  const LitScene lit(scene);
  for (const double z_m : {0.01, 0.3, 0.99}) {
    EXPECT_GT(one_lx(lit, {{2, 0, z_m}, {-1, 0, 0}}), 0) << z_m;
    EXPECT_EQ(one_lx(lit, {{2, 0, z_m}, {1, 0, 0}}), 0) << z_m;
  }
}

TEST_F(ShadowOfAWall, AGrazingSurfaceDoesNotShadeItself) {
  scene.lamps[0].position = {-40, 0, 0.15};  // the ground is seen under a fifth of a degree and less
  const LitScene lit(scene);
  for (double x_m = -39; x_m < 1.9; x_m += 0.37) EXPECT_GT(one_lx(lit, {{x_m, 0.1, 0}}), 0) << x_m;
}

TEST_F(ShadowOfAWall, ALampOnTheWallIsNotShadedByIt) {
  scene.lamps[0].position = {2, 0, 0.9};
  const LitScene lit(scene);
  EXPECT_GT(one_lx(lit, {{1, 0, 0}}), 0);
  EXPECT_GT(one_lx(lit, {{3, 0, 0}}), 0);
}

TEST_F(ShadowOfAWall, BothCastersGiveTheSameLight) {
  std::mt19937 random(31);
  const auto receivers = many_receivers(random);
  const LitScene quickest(scene);
  const LitScene own(scene, geometry::own_ray_caster(scene.solid));
  const auto p = all_lx(quickest, receivers);
  const auto q = all_lx(own, receivers);
  const auto differing = std::inner_product(p.begin(), p.end(), q.begin(), 0, std::plus{}, std::not_equal_to{});
  EXPECT_LE(differing, 2) << "of " << p.size();
  EXPECT_GT(std::count(p.begin(), p.end(), 0.0F), 300);
}

TEST_F(ShadowOfAWall, VisibleShareSeesWallsAndCrowns) {
  scene.crowns.push_back({{0, 5, 2}, 1, 1, 0.36});
  const LitScene lit(scene);
  EXPECT_EQ(lit.visible_share({0, 0, 0.5}, {4, 0, 0.5}), 0);
  EXPECT_EQ(lit.visible_share({0, 0, 1.5}, {4, 0, 1.5}), 1);
  EXPECT_NEAR(lit.visible_share({0, 0, 2}, {0, 10, 2}), 0.36, 1e-9);
}

TEST_F(ShadowOfAWall, ACrownLeavesItsShareOfTheLight) {
  const Receiver behind{{0, 10, 2}, {0, -1, 0}};
  const float open_lx = one_lx(LitScene(scene), behind);
  scene.crowns.push_back({{0, 5, 2}, 1, 1, 0.36});
  EXPECT_NEAR(one_lx(LitScene(scene), behind) / open_lx, 0.36, 1e-5);
}

TEST_F(ShadowOfAWall, CrownsOfABlockAreThoseOfEachPlace) {
  std::mt19937 random(17);
  const auto receivers = many_receivers(random);
  scene.solid = {};
  const auto open_lx = all_lx(LitScene(scene), receivers);
  scene.crowns = {{{3, 1, 2}, 1.2, 1.7, 0.3}, {{-4, 2, 1}, 0.6, 0.4, 0.5}, {{60, -40, 5}, 2, 2, 0.1}};
  const LitScene lit(scene);
  const auto lx = all_lx(lit, receivers);
  int shaded = 0;
  for (std::size_t i = 0; i < lx.size(); ++i) {
    const double share = lit.visible_share({0, 0, 2}, receivers[i].position);
    if (share < 1) ++shaded;
    ASSERT_NEAR(double{lx[i]}, share * double{open_lx[i]}, 1e-4 * double{open_lx[i]}) << i;
  }
  EXPECT_GT(shaded, 100);
}

TEST_F(ShadowOfAWall, StopsWhenTold) {
  const LitScene lit(scene);
  const std::vector<Receiver> receivers(20000, Receiver{{1, 0, 0}});
  std::vector<float> lx(receivers.size());
  int asked = 0;
  EXPECT_FALSE(lit.illuminance_lx(receivers, lx, {}, [&] { return ++asked < 3; }));
  EXPECT_EQ(asked, 3);
}

TEST(Illuminance, APlaceThatTurnsToTheLampGetsAllOfIt) {
  Scene scene;
  scene.distributions.push_back(testing::isotropic(100));
  scene.lamps.push_back({.position = {0, 0, 0}});
  scene.lamps.push_back({.position = {0, 0, 10}});
  const LitScene lit(scene);
  const Vec3 turning{0, 0, 0};
  EXPECT_NEAR(one_lx(lit, {{0, 0, 5}, turning}), 8, 1e-4);  // 100 / 5^2 from above and from below
  // Among others that face one way, on either side of it.
  const std::vector<Receiver> mixed{{{0, 0, 5}, turning}, {{0, 0, 5}}, {{0, 0, 5}, turning}, {{0, 0, 5}, {1, 0, 0}}};
  const auto lx = all_lx(lit, mixed);
  EXPECT_NEAR(lx[0], 8, 1e-4);
  EXPECT_NEAR(lx[1], 4, 1e-4);
  EXPECT_NEAR(lx[2], 8, 1e-4);
  EXPECT_EQ(lx[3], 0);
}

TEST(Illuminance, APlaceAtTheLampIsDarkAndSpoilsNothing) {
  Scene scene;
  scene.distributions.push_back(testing::isotropic(100));
  scene.lamps.push_back({.position = {1, 1, 1}});
  const LitScene lit(scene);
  const std::vector<Receiver> receivers{{{1, 1, 1}}, {{1, 1, 0}}};
  const auto lx = all_lx(lit, receivers);
  EXPECT_EQ(lx[0], 0);
  EXPECT_NEAR(lx[1], 100, 0.01);
}

}  // namespace
}  // namespace duskwire::light
