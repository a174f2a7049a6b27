// SPDX-License-Identifier: Apache-2.0
#include "estimate/dug_ground.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

namespace duskwire::estimate {
namespace {

TEST(DugGround, IsOpenAsFarAsATrenchIsWideAndNoFarther) {
  DugGround ground;
  EXPECT_FALSE(ground.is_open_at({3, 4}));
  ground.add({3, 4});
  EXPECT_TRUE(ground.is_open_at({3, 4}));
  EXPECT_TRUE(ground.is_open_at({3.149, 4}));
  EXPECT_FALSE(ground.is_open_at({3.151, 4}));
  EXPECT_TRUE(ground.is_open_at({3.1, 4.1}));
  EXPECT_FALSE(ground.is_open_at({3.12, 4.12}));
}

TEST(DugGround, FindsWhatAComparisonWithEveryPointFinds) {
  constexpr std::uint32_t seed = 7;
  std::mt19937 dice(seed);
  const auto coordinate_m = [&] { return dice() / 4294967296.0 * 6 - 3; };  // both sides of the origin
  std::vector<geometry::Point2> points;
  DugGround ground;
  for (int i = 0; i < 150; ++i) {
    points.push_back({coordinate_m(), coordinate_m()});
    ground.add(points.back());
  }
  int open = 0;
  for (int i = 0; i < 2000; ++i) {
    const geometry::Point2 asked{coordinate_m(), coordinate_m()};
    bool near = false;
    for (const geometry::Point2 point : points) near = near || geometry::distance_m(point, asked) <= shared_trench_m;
    EXPECT_EQ(ground.is_open_at(asked), near) << asked.x_m << ' ' << asked.y_m << " seed " << seed;
    open += near ? 1 : 0;
  }
  EXPECT_GT(open, 100);
  EXPECT_LT(open, 1900);
}

}  // namespace
}  // namespace duskwire::estimate
