// SPDX-License-Identifier: Apache-2.0
#include "geometry/prism.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "geometry/polygon.hpp"
#include "geometry/vec3.hpp"

namespace duskwire::geometry {
namespace {

const Polygon notched = {{0, 0}, {4, 0}, {4, 4}, {3, 4}, {3, 1}, {1, 1}, {1, 4}, {0, 4}};

double covered_m2(const Polygon& outline) {
  double sum_m2 = 0;
  for (const auto& [p, q, r] : triangulated(outline)) sum_m2 += area_m2({outline[p], outline[q], outline[r]});
  return sum_m2;
}

// Gauss: the volume of a closed surface is the sum of p . (q x r) / 6 over triangles that all turn outwards.
double volume_m3(const TriangleMesh& mesh) {
  double sum_m3 = 0;
  for (const auto& triangle : mesh.triangles) {
    Vec3 corner[3];
    for (int i = 0; i < 3; ++i) {
      const auto& point = mesh.points_m[triangle[static_cast<std::size_t>(i)]];
      corner[i] = {point[0], point[1], point[2]};
    }
    sum_m3 += dot(corner[0], cross(corner[1], corner[2])) / 6;
  }
  return sum_m3;
}

TEST(Prism, TrianglesCoverAConcaveOutlineAndNoMore) {
  EXPECT_NEAR(covered_m2(notched), 10, 1e-9);  // 16 less the notch of 2 by 3
  for (const auto& [p, q, r] : triangulated(notched)) {
    const Point2 centre{(notched[p].x_m + notched[q].x_m + notched[r].x_m) / 3,
                        (notched[p].y_m + notched[q].y_m + notched[r].y_m) / 3};
    EXPECT_TRUE(contains(notched, centre));
  }
}

TEST(Prism, DirectionOfTheOutlineDoesNotMatter) {
  EXPECT_NEAR(covered_m2(Polygon(notched.rbegin(), notched.rend())), 10, 1e-9);
}

TEST(Prism, PointsOnAStraightLineAndTwiceTheSamePointLoseNoArea) {
  EXPECT_NEAR(covered_m2({{0, 0}, {1, 0}, {2, 0}, {4, 0}, {4, 4}, {4, 4}, {0, 4}, {0, 2}}), 16, 1e-9);
}

TEST(Prism, IsClosedAndHoldsItsVolume) {
  TriangleMesh mesh;
  add_prism(mesh, notched, 1, 3.5, 7);
  EXPECT_NEAR(volume_m3(mesh), 25, 1e-5);  // 10 m2 by 2.5 m
  ASSERT_EQ(mesh.thing.size(), mesh.triangles.size());
  EXPECT_EQ(mesh.thing.front(), 7u);
  EXPECT_EQ(mesh.triangles.size(), 2 * 8u + 2 * 6u);
}

TEST(Prism, FewerThanThreePointsAreNoSolid) {
  TriangleMesh mesh;
  add_prism(mesh, {{0, 0}, {1, 0}}, 0, 1, 0);
  EXPECT_TRUE(mesh.triangles.empty());
}

}  // namespace
}  // namespace duskwire::geometry
