// SPDX-License-Identifier: Apache-2.0
#include "geometry/polygon.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace duskwire::geometry {
namespace {

const Polygon square = {{0, 0}, {4, 0}, {4, 4}, {0, 4}};
// A U open to the north: the notch between x 1 and 3 above y 1 is outside.
const Polygon notched = {{0, 0}, {4, 0}, {4, 4}, {3, 4}, {3, 1}, {1, 1}, {1, 4}, {0, 4}};

TEST(Polygon, ContainsFollowsConcaveOutlines) {
  EXPECT_TRUE(contains(notched, {0.5, 3}));
  EXPECT_FALSE(contains(notched, {2, 3}));
  EXPECT_TRUE(contains(notched, {2, 0.5}));
  EXPECT_FALSE(contains(notched, {5, 1}));
}

TEST(Polygon, DirectionOfOutlineDoesNotMatter) {
  Polygon reversed(notched.rbegin(), notched.rend());
  EXPECT_TRUE(contains(reversed, {0.5, 3}));
  EXPECT_FALSE(contains(reversed, {2, 3}));
  EXPECT_DOUBLE_EQ(area_m2(reversed), area_m2(notched));
}

TEST(Polygon, AreaIsThatOfTheSquareLessTheNotch) {
  EXPECT_DOUBLE_EQ(area_m2(square), 16);
  EXPECT_DOUBLE_EQ(area_m2(notched), 16 - 2 * 3);
}

TEST(Polygon, DistanceIsZeroInsideAndToTheNearestEdgeOutside) {
  EXPECT_EQ(distance_m(square, Point2{2, 2}), 0);
  EXPECT_DOUBLE_EQ(distance_m(square, Point2{7, 2}), 3);
  EXPECT_DOUBLE_EQ(distance_m(square, Point2{7, 8}), 5);
}

TEST(Polygon, RouteThatPassesThroughHasNoDistance) { EXPECT_EQ(distance_m(square, Polyline{{-1, 2}, {5, 2}}), 0); }

TEST(Polygon, RouteIsAsNearAsItsNearestPoint) {
  EXPECT_DOUBLE_EQ(distance_m(square, Polyline{{5, -9}, {5, 9}}), 1);
  EXPECT_DOUBLE_EQ(distance_m(square, Polyline{{2, 9}, {2, 6}}), 2);
}

TEST(Polygon, RoutePastACornerIsMeasuredToTheCorner) {
  // The line x + y = 10 passes the corner (4, 4) at 2 / sqrt 2.
  EXPECT_NEAR(distance_m(square, Polyline{{10, 0}, {0, 10}}), std::sqrt(2.0), 1e-12);
}

TEST(Polygon, CrossingsAreSharesOfThePiece) {
  std::vector<double> shares = crossings(square, {-4, 2}, {12, 2});
  std::sort(shares.begin(), shares.end());
  ASSERT_EQ(shares.size(), 2u);
  EXPECT_DOUBLE_EQ(shares[0], 0.25);
  EXPECT_DOUBLE_EQ(shares[1], 0.5);
}

TEST(Polygon, PointsAndLinesEncloseNothing) {
  const Polygon line = {{0, 0}, {4, 0}};
  EXPECT_FALSE(contains(line, {2, 0}));
  EXPECT_EQ(area_m2(line), 0);
  EXPECT_DOUBLE_EQ(distance_m(line, Point2{2, 3}), 3);
  EXPECT_TRUE(std::isinf(distance_m(Polygon{}, Point2{0, 0})));
  EXPECT_TRUE(std::isinf(distance_m(square, Polyline{})));
}

TEST(Polygon, OutwardLeadsOutOfTheOutlineWhicheverWayItRuns) {
  const Point2 south = outward(square, 0);
  EXPECT_NEAR(south.x_m, 0, 1e-12);
  EXPECT_NEAR(south.y_m, -1, 1e-12);
  const Point2 turned = outward({{0, 0}, {0, 4}, {4, 4}, {4, 0}}, 0);
  EXPECT_NEAR(turned.x_m, -1, 1e-12);
  EXPECT_NEAR(turned.y_m, 0, 1e-12);
}

TEST(Polygon, NearestPlaceNamesItsEdge) {
  const auto place = nearest_on_outline(square, {4.5, 3});
  ASSERT_TRUE(place);
  EXPECT_EQ(place->edge, 1u);
  EXPECT_EQ(place->place, (Point2{4, 3}));
  EXPECT_DOUBLE_EQ(place->away_m, 0.5);
  EXPECT_FALSE(nearest_on_outline({}, {0, 0}));
}

TEST(Polygon, MiddleIsThatOfTheAreaNotOfTheCorners) {
  const Point2 centre = middle({{0, 0}, {1, 0}, {2, 0}, {4, 0}, {4, 4}, {0, 4}});
  EXPECT_NEAR(centre.x_m, 2, 1e-12);
  EXPECT_NEAR(centre.y_m, 2, 1e-12);
}

}  // namespace
}  // namespace duskwire::geometry
