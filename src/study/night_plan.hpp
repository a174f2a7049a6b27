// SPDX-License-Identifier: Apache-2.0
// The night plan: light on the ground as a raster over the garden, with lines of equal light. What the page and the
// sheet draw, in false colour or as pools of light.
#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

#include "geometry/point.hpp"
#include "job/job.hpp"
#include "study/garden_light.hpp"

namespace duskwire::study {

struct LightContour {
  double lx = 0;
  std::vector<geometry::Polyline> lines;
};

// Rows from the south, each from the west. A cell is lit on the level at its middle: on the ground, a deck or a tread.
struct NightPlan {
  geometry::Point2 origin;  // south-west corner of the first cell
  double cell_m = 0.25;
  std::uint32_t columns = 0;
  std::uint32_t rows = 0;
  std::vector<float> lx;  // below 0: not ground (under a roof, in a wall)
  double maximum_lx = 0;
  std::vector<LightContour> contours;

  [[nodiscard]] bool is_ground(std::size_t cell) const { return lx[cell] >= 0; }
};

// Steps of the contours and of the colours' legend.
inline constexpr double contour_lx[] = {0.5, 1, 2, 5, 10, 20, 50, 100};

// Over the property and what is placed on it, with a margin. Empty where nothing has a place.
[[nodiscard]] NightPlan night_plan(const job::Job& job, const GardenLight& garden, double cell_m);

}  // namespace duskwire::study
