// SPDX-License-Identifier: Apache-2.0
#include "geometry/clip.hpp"

#include <gtest/gtest.h>

#include "geometry/polygon.hpp"

namespace duskwire::geometry {
namespace {

const Polygon square = {{0, 0}, {4, 0}, {4, 4}, {0, 4}};

TEST(Clip, KeepsTheSideThatTheWayPointsTo) {
  const Polygon east = clipped(square, {3, 0}, {1, 0});
  EXPECT_NEAR(area_m2(east), 4, 1e-12);
  EXPECT_TRUE(contains(east, {3.5, 2}));
  EXPECT_NEAR(area_m2(clipped(square, {3, 0}, {-1, 0})), 12, 1e-12);
}

TEST(Clip, LeavesNothingOfWhatLiesBeyondAndAllOfWhatLiesBefore) {
  EXPECT_EQ(area_m2(clipped(square, {5, 0}, {1, 0})), 0);
  EXPECT_NEAR(area_m2(clipped(square, {-1, 0}, {1, 0})), 16, 1e-12);
}

TEST(Clip, ExtentIsTakenAlongTheWay) {
  const Extent extent = extent_along(square, {0.6, 0.8});
  EXPECT_NEAR(extent.low, 0, 1e-12);
  EXPECT_NEAR(extent.high, 5.6, 1e-12);
}

}  // namespace
}  // namespace duskwire::geometry
