// SPDX-License-Identifier: Apache-2.0
#include "sites/ground_plan.hpp"

#include <cmath>

namespace duskwire::sites {
namespace {

using geometry::Point2;
using geometry::Polygon;
using job::GroundKind;

constexpr double diagonal = 0.7071;  // of an eight-sided outline
constexpr double sleeve_past_edge_m = 0.3;

class Pen {
 public:
  Pen(const Frame& frame, const std::string& prefix, job::Job& job) : frame_(frame), prefix_(prefix), job_(job) {}

  void area(const std::string& name, GroundKind kind, const Box& box, double height_m = 0) {
    outline(name, kind,
            {{box.left_m, box.near_m}, {box.right_m, box.near_m}, {box.right_m, box.far_m}, {box.left_m, box.far_m}},
            height_m);
  }
  void round_area(const std::string& name, GroundKind kind, Point2 middle, double radius_m) {
    const double d = radius_m * diagonal;
    Polygon corners{{radius_m, 0}, {d, d}, {0, radius_m}, {-d, d}, {-radius_m, 0}, {-d, -d}, {0, -radius_m}, {d, -d}};
    for (Point2& corner : corners) corner = {middle.x_m + corner.x_m, middle.y_m + corner.y_m};
    outline(name, kind, corners, 0);
  }
  void sleeve(const std::string& name, double from_m, double to_m, double y_m) {
    job::Sleeve sleeve;
    sleeve.id = prefix_ + name;
    sleeve.path = {frame_.on_site({from_m - sleeve_past_edge_m, y_m}),
                   frame_.on_site({to_m + sleeve_past_edge_m, y_m})};
    sleeve.diameter_mm = 50;
    sleeve.depth_m = 0.5;
    job_.plan.sleeves.push_back(sleeve);
  }
  void tree(const std::string& name, Point2 place, double crown_m) {
    job::Tree tree;
    tree.id = prefix_ + name;
    tree.position = frame_.on_site(place);
    tree.height_m = 8;
    tree.crown_width_m = rounded_m(crown_m);
    tree.crown_base_m = 2.5;
    job_.plan.trees.push_back(tree);
  }

 private:
  void outline(const std::string& name, GroundKind kind, const Polygon& corners, double height_m) {
    job::Area area;
    area.id = prefix_ + name;
    area.kind = kind;
    area.height_m = height_m;
    for (const Point2& corner : corners) area.outline.push_back(frame_.on_site(corner));
    job_.plan.areas.push_back(area);
  }

  const Frame& frame_;
  const std::string& prefix_;
  job::Job& job_;
};

void draw_house(Measures& lot, wiring::Dice& dice, Pen& pen) {
  const double front_m = lot.depth_m * (0.34 + 0.05 * dice.unit());
  lot.house = {lot.width_m * (0.2 + 0.04 * dice.unit()), front_m, lot.width_m * 0.7, front_m + lot.depth_m * 0.24};
  lot.garage = {lot.house.right_m, front_m + 1, lot.house.right_m + 5.2, front_m + 7};
  lot.drive = {lot.garage.left_m + 0.7, 0, lot.garage.right_m - 0.5, lot.garage.near_m};
  pen.area("house", GroundKind::building, lot.house, 6);
  pen.area("garage", GroundKind::building, lot.garage, 3);
  pen.area("drive", GroundKind::drive, lot.drive);
  if (dice.unit() < 0.8) pen.sleeve("sleeve-drive", lot.drive.left_m, lot.drive.right_m, lot.depth_m * 0.12);
}

// Straight from the street, or from the drive along the front: the latter needs no sleeve to be passed.
void draw_walk(Measures& lot, wiring::Dice& dice, Pen& pen) {
  const double door_m = lot.house.left_m + (lot.house.right_m - lot.house.left_m) * (0.4 + 0.2 * dice.unit());
  const double front_m = lot.house.near_m;
  if (dice.unit() < 0.5) {
    lot.walk = {{door_m - 0.6, 0, door_m + 0.6, front_m}};
    if (dice.unit() < 0.7) pen.sleeve("sleeve-walk", door_m - 0.6, door_m + 0.6, front_m * 0.6);
  } else {
    lot.walk = {{door_m - 0.6, front_m - 3.4, lot.drive.left_m, front_m - 2.2},
                {door_m - 0.6, front_m - 2.2, door_m + 0.6, front_m}};
  }
  for (std::size_t i = 0; i < lot.walk.size(); ++i) {
    pen.area("walk-" + std::to_string(i + 1), GroundKind::paving, lot.walk[i]);
  }
  lot.left_bed = {lot.house.left_m, front_m - 1.4, door_m - 0.8, front_m};
  lot.right_bed = {door_m + 0.8, front_m - 1.4, lot.house.right_m, front_m};
  pen.area("bed-left", GroundKind::bed, lot.left_bed);
  pen.area("bed-right", GroundKind::bed, lot.right_bed);
}

void draw_back(Measures& lot, wiring::Dice& dice, Pen& pen) {
  const double back_m = lot.house.far_m;
  lot.patio = {lot.width_m * 0.34, back_m, lot.width_m * 0.6, back_m + 3.6};
  lot.back_bed = {0, lot.depth_m - 1.5, lot.width_m, lot.depth_m};
  lot.side_bed = {0, back_m + 1, 1.2, lot.depth_m - 1.5};
  lot.grove_left_m = lot.width_m - 5.6;
  pen.area("patio", GroundKind::paving, lot.patio);
  pen.area("bed-back", GroundKind::bed, lot.back_bed);
  pen.area("bed-side", GroundKind::bed, lot.side_bed);
  pen.area("lawn-front", GroundKind::lawn, {0, 0, lot.width_m, lot.house.near_m});
  pen.area("lawn-middle", GroundKind::lawn, {0, lot.house.near_m, lot.width_m, back_m});
  pen.area("lawn-back", GroundKind::lawn, {0, back_m, lot.grove_left_m, lot.depth_m});
  const double water = dice.unit();
  const double room_m = lot.back_bed.near_m - lot.patio.far_m;
  if (room_m > 11 && water < 0.4) {
    const double left_m = lot.width_m * 0.36;
    pen.area("pool", GroundKind::pool, {left_m, lot.back_bed.near_m - 7, left_m + 7, lot.back_bed.near_m - 3.4});
  } else if (room_m > 6 && water < 0.7) {
    pen.round_area("pond", GroundKind::water, {lot.width_m * 0.3, lot.back_bed.near_m - 3.2}, 1.5 + dice.unit() * 0.6);
  }
}

void draw_trees(Measures& lot, std::uint32_t lamps, wiring::Dice& dice, Pen& pen) {
  const std::uint32_t grove = 1 + lamps / 20;
  const double from_m = lot.house.far_m + 2.5;
  const double step_m = (lot.depth_m - 4 - from_m) / grove;
  for (std::uint32_t i = 0; i < grove; ++i) {
    const Point2 place{lot.width_m - 2.8 + 0.6 * (dice.unit() - 0.5), from_m + step_m * (i + 0.3 + 0.4 * dice.unit())};
    const double roots_m = 1.5 + 0.5 * dice.unit();
    pen.tree("tree-" + std::to_string(i + 1), place, 2 * roots_m);
    pen.round_area("roots-" + std::to_string(i + 1), GroundKind::root_zone, place, roots_m);
    lot.grove_trees.push_back(place);
  }
  const Point2 front{lot.house.left_m * (0.5 + 0.3 * dice.unit()), lot.depth_m * (0.12 + 0.08 * dice.unit())};
  pen.tree("tree-front", front, 5);
  lot.front_trees.push_back(front);
}

}  // namespace

double rounded_m(double length_m) { return std::round(length_m * 1000) / 1000; }

Point2 Frame::on_site(Point2 point) const {
  const double x_m = swap_sides ? width_m - point.x_m : point.x_m;
  const double y_m = face_down ? -point.y_m : point.y_m;
  return {rounded_m(origin.x_m + x_m), rounded_m(origin.y_m + y_m)};
}

Measures draw_ground(const Frame& frame, double depth_m, std::uint32_t lamps, const std::string& prefix,
                     wiring::Dice& dice, job::Job& job) {
  Pen pen(frame, prefix, job);
  Measures lot;
  lot.width_m = frame.width_m;
  lot.depth_m = depth_m;
  draw_house(lot, dice, pen);
  draw_walk(lot, dice, pen);
  draw_back(lot, dice, pen);
  draw_trees(lot, lamps, dice, pen);
  return lot;
}

}  // namespace duskwire::sites
