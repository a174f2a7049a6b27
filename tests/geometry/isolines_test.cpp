// SPDX-License-Identifier: Apache-2.0
#include "geometry/isolines.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

namespace duskwire::geometry {
namespace {

// height(x, y) at the nodes of a lattice of 41 by 41 over 4 m by 4 m.
template <class Height>
std::vector<float> heights(const Lattice& lattice, const Height& height) {
  std::vector<float> out;
  for (std::size_t row = 0; row < lattice.rows; ++row) {
    for (std::size_t column = 0; column < lattice.columns; ++column) {
      out.push_back(static_cast<float>(height(lattice.origin.x_m + lattice.cell_m * static_cast<double>(column),
                                              lattice.origin.y_m + lattice.cell_m * static_cast<double>(row))));
    }
  }
  return out;
}

const Lattice lattice{{-2, -2}, 0.1, 41, 41};

TEST(Isolines, OfAConeAreOneClosedCircle) {
  const auto lines = isolines(lattice, heights(lattice, [](double x, double y) { return -std::hypot(x, y); }), -1.0);
  ASSERT_EQ(lines.size(), 1u);
  EXPECT_EQ(lines[0].front(), lines[0].back());
  EXPECT_GT(lines[0].size(), 50u);
  for (const Point2 point : lines[0]) EXPECT_NEAR(std::hypot(point.x_m, point.y_m), 1, 0.005);
}

TEST(Isolines, OfASlopeAreOneLineFromEdgeToEdge) {
  const auto lines = isolines(lattice, heights(lattice, [](double x, double) { return x; }), 0.55);
  ASSERT_EQ(lines.size(), 1u);
  EXPECT_EQ(lines[0].size(), 41u);
  for (const Point2 point : lines[0]) EXPECT_NEAR(point.x_m, 0.55, 1e-6);
}

TEST(Isolines, TwoHillsHaveALineEach) {
  const auto two = [](double x, double y) { return std::max(-std::hypot(x - 1, y), -std::hypot(x + 1, y)); };
  EXPECT_EQ(isolines(lattice, heights(lattice, two), -0.6).size(), 2u);
  EXPECT_EQ(isolines(lattice, heights(lattice, two), 1.0).size(), 0u);
}

TEST(Isolines, BreakWhereTheHeightIsNotKnown) {
  auto slope = heights(lattice, [](double x, double) { return x; });
  slope[20 * 41 + 25] = std::numeric_limits<float>::quiet_NaN();
  EXPECT_EQ(isolines(lattice, slope, 0.55).size(), 2u);
}

}  // namespace
}  // namespace duskwire::geometry
