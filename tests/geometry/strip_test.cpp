// SPDX-License-Identifier: Apache-2.0
#include "geometry/strip.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace duskwire::geometry {
namespace {

TEST(Strip, AStraightWalkHasItsMiddleAndItsWidth) {
  const auto strip = strip_of({{0, 0}, {14, 0}, {14, 1.2}, {0, 1.2}});
  ASSERT_TRUE(strip);
  EXPECT_NEAR(strip->length_m, 14, 1e-9);
  EXPECT_NEAR(strip->width_m, 1.2, 1e-9);
  for (const Point2 point : strip->centreline) EXPECT_NEAR(point.y_m, 0.6, 1e-9);
}

TEST(Strip, LeftIsLeftOfTheWayWhicheverWayTheOutlineRuns) {
  const Polygon outline = {{0, 0}, {14, 0}, {14, 1.2}, {0, 1.2}};
  for (const Polygon& run : {outline, Polygon(outline.rbegin(), outline.rend())}) {
    const auto strip = strip_of(run);
    ASSERT_TRUE(strip);
    const Point2 way = place_along(strip->centreline, 1).way;
    const Point2 across{strip->left[0].x_m - strip->right[0].x_m, strip->left[0].y_m - strip->right[0].y_m};
    EXPECT_GT(way.x_m * across.y_m - way.y_m * across.x_m, 0);
  }
}

TEST(Strip, BeginsAtTheEndWhereTheOutlineBegins) {
  EXPECT_EQ(strip_of({{0, 0}, {14, 0}, {14, 1.2}, {0, 1.2}})->centreline.front(), (Point2{0, 0.6}));
  EXPECT_EQ(strip_of({{14, 1.2}, {0, 1.2}, {0, 0}, {14, 0}})->centreline.front(), (Point2{14, 0.6}));
}

TEST(Strip, AQuarterOfARingHasTheLengthOfItsMiddle) {
  Polygon ring;
  constexpr int pieces = 24;
  const auto at = [](double radius_m, int i) {
    const double turn = std::numbers::pi / 2 * i / pieces;
    return Point2{radius_m * std::cos(turn), radius_m * std::sin(turn)};
  };
  for (int i = 0; i <= pieces; ++i) ring.push_back(at(9, i));
  for (int i = pieces; i >= 0; --i) ring.push_back(at(8, i));
  const auto strip = strip_of(ring);
  ASSERT_TRUE(strip);
  EXPECT_NEAR(strip->length_m, 8.5 * std::numbers::pi / 2, 0.02);
  EXPECT_NEAR(strip->width_m, 1, 0.01);
}

TEST(Strip, ASquareIsNoWalk) { EXPECT_FALSE(strip_of({{0, 0}, {4, 0}, {4, 4}, {0, 4}})); }

TEST(Strip, PlacesAlongALineAreHeldToItsEnds) {
  const Polyline line = {{0, 0}, {3, 0}, {3, 4}};
  EXPECT_EQ(place_along(line, 4).place, (Point2{3, 1}));
  EXPECT_EQ(place_along(line, 4).way, (Point2{0, 1}));
  EXPECT_EQ(place_along(line, 99).place, (Point2{3, 4}));
  EXPECT_EQ(place_along(line, -1).place, (Point2{0, 0}));
  EXPECT_DOUBLE_EQ(length_m(line), 7);
}

}  // namespace
}  // namespace duskwire::geometry
