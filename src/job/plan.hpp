// SPDX-License-Identifier: Apache-2.0
// The measured plan: what the ground is, what stands on it, who looks on. Site frame: see geometry/point.hpp.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "geometry/point.hpp"
#include "job/extra.hpp"

namespace duskwire::job {

enum class GroundKind : std::uint8_t {
  bed = 0,
  lawn = 1,
  gravel = 2,
  paving = 3,
  drive = 4,
  street = 5,
  building = 6,
  deck = 7,
  wall = 8,
  steps = 9,
  water = 10,      // pond, stream
  pool = 11,       // pool, spa, fountain with people in it
  root_zone = 12,  // hand digging only
  forbidden = 13,
};

struct Area {
  std::string id;
  std::string name;
  GroundKind kind = GroundKind::lawn;
  geometry::Polygon outline;
  double height_m = 0;  // of a building, wall or deck over grade; of steps from their foot to the landing
  std::optional<std::uint32_t> riser_count;  // steps
  std::optional<double> ascent_deg;          // steps: the way up, clockwise from north
  Extra extra;

  bool operator==(const Area&) const = default;
};

struct Underlay {
  std::string image;        // content hash or file name of the picture
  double m_per_px = 0;      // scale
  geometry::Point2 origin;  // where the picture's top left corner lies
  double rotation_deg = 0;
  double opacity = 1;
  Extra extra;

  bool operator==(const Underlay&) const = default;
};

struct Sleeve {
  std::string id;
  geometry::Polyline path;
  double diameter_mm = 0;
  double depth_m = 0;
  std::optional<bool> laid;  // in the ground already; absent: not known, so it is bought and dug for
  Extra extra;

  bool operator==(const Sleeve&) const = default;
};

struct Receptacle {
  std::string id;
  geometry::Point2 position;
  bool gfci = false;          // residual-current protected
  bool in_use_cover = false;  // cover that closes over a plug
  std::optional<double> circuit_a;
  Extra extra;

  bool operator==(const Receptacle&) const = default;
};

enum class ViewPointKind : std::uint8_t { street = 0, door = 1, window = 2, neighbour_window = 3, seat = 4, other = 5 };

struct ViewPoint {
  std::string id;
  std::string name;
  ViewPointKind kind = ViewPointKind::other;
  geometry::Point3 position;
  Extra extra;

  bool operator==(const ViewPoint&) const = default;
};

struct Tree {
  std::string id;
  std::string name;
  geometry::Point2 position;
  double height_m = 0;
  double crown_width_m = 0;
  double crown_base_m = 0;
  double crown_transmittance = 0.3;
  Extra extra;

  bool operator==(const Tree&) const = default;
};

// A point that stays where it is for decades: tape offsets are taken from these.
struct FixedPoint {
  std::string id;
  std::string name;
  geometry::Point2 position;
  Extra extra;

  bool operator==(const FixedPoint&) const = default;
};

struct Plan {
  std::optional<Underlay> underlay;
  double north_deg = 90;  // direction of north in the site frame, counter-clockwise from +x
  std::vector<Area> areas;
  std::vector<Sleeve> sleeves;
  std::vector<Receptacle> receptacles;
  geometry::Polygon property_line;
  std::vector<ViewPoint> view_points;
  std::vector<Tree> trees;
  std::vector<FixedPoint> fixed_points;
  Extra extra;

  bool operator==(const Plan&) const = default;
};

}  // namespace duskwire::job
