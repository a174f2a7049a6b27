// SPDX-License-Identifier: Apache-2.0
// The ground of one lot while it is drawn: measures of house, drive, walk and garden in the lot's own frame (x along
// the street, y away from it), and what turns that frame into the site's.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "geometry/point.hpp"
#include "job/job.hpp"
#include "wiring/dice.hpp"

namespace duskwire::sites {

struct Box {
  double left_m = 0;
  double near_m = 0;  // to the street
  double right_m = 0;
  double far_m = 0;
};

// From the frame of a lot to the site's: mirrored or not, then moved.
struct Frame {
  geometry::Point2 origin;
  double width_m = 0;
  bool swap_sides = false;
  bool face_down = false;  // the street lies above the lot

  [[nodiscard]] geometry::Point2 on_site(geometry::Point2 point) const;
};

// Whole millimetres, as a plan is drawn: no last bits that differ from one computer to the next.
[[nodiscard]] double rounded_m(double length_m);

struct Measures {
  double width_m = 0;
  double depth_m = 0;
  Box house, garage, drive, patio, left_bed, right_bed, back_bed, side_bed;
  std::vector<Box> walk;  // one piece from the street, or two from the drive to the door
  std::vector<geometry::Point2> front_trees, grove_trees;
  double grove_left_m = 0;  // from here to the side fence no ground is named, only roots
};

// Draws the lot's areas, trees and sleeves into the plan of `job`. `prefix` begins each id.
[[nodiscard]] Measures draw_ground(const Frame& frame, double depth_m, std::uint32_t lamps, const std::string& prefix,
                                   wiring::Dice& dice, job::Job& job);

}  // namespace duskwire::sites
