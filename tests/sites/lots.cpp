// SPDX-License-Identifier: Apache-2.0
#include "sites/lots.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <set>

#include "sites/ground_plan.hpp"
#include "sites/lamp_places.hpp"

namespace duskwire::sites {
namespace {

using geometry::Point2;

constexpr std::uint32_t most_on_a_lot = 50;
constexpr double street_m = 8;
constexpr double verge_m = 1.5;  // between the street and the lots
constexpr double off_the_wall_m = 0.15;

const char* const smallest_transformer = "transformer-75va";

job::Job blank(const char* what, const LotRequest& request) {
  job::Job job;
  job.id = std::string(what) + "-" + std::to_string(request.lamps) + "-" + std::to_string(request.seed);
  job.title = "Seeded site of " + std::to_string(request.lamps) + " lamps";
  return job;
}

void add_lamp(job::Job& job, Point2 place, const std::string& item) {
  job::Luminaire lamp;
  lamp.id = "L" + std::to_string(job.luminaires.size() + 1);
  lamp.item = item;
  lamp.position = geometry::Point3{place.x_m, place.y_m, 0};
  job.luminaires.push_back(lamp);
}

void add_transformer(job::Job& job, Point2 place, const job::Catalogue& stock) {
  const std::string number = std::to_string(job.transformers.size() + 1);
  job::Receptacle receptacle;
  receptacle.id = "R" + number;
  receptacle.position = place;
  receptacle.gfci = receptacle.in_use_cover = true;
  receptacle.circuit_a = 20;
  job.plan.receptacles.push_back(receptacle);
  job::Transformer transformer;
  transformer.id = "T" + number;
  transformer.item = smallest_transformer;
  transformer.position = place;
  transformer.receptacle = receptacle.id;
  const job::TransformerItem* item = job::find_transformer(stock, smallest_transformer);
  transformer.outputs.push_back({transformer.id + "-A", item ? item->taps_v.front() : 12, {}, {}});
  job.transformers.push_back(transformer);
}

void add_area(job::Job& job, const std::string& id, job::GroundKind kind, const Box& box) {
  job::Area area;
  area.id = id;
  area.kind = kind;
  for (const Point2 corner : {Point2{box.left_m, box.near_m}, Point2{box.right_m, box.near_m},
                              Point2{box.right_m, box.far_m}, Point2{box.left_m, box.far_m}}) {
    area.outline.push_back({rounded_m(corner.x_m), rounded_m(corner.y_m)});
  }
  job.plan.areas.push_back(area);
}

void copy_used_items(job::Job& job, const job::Catalogue& stock) {
  std::set<std::string> used;
  for (const job::Luminaire& lamp : job.luminaires) used.insert(lamp.item);
  for (const job::Transformer& transformer : job.transformers) used.insert(transformer.item);
  job.catalogue.currency = stock.currency;
  for (const job::LuminaireItem& item : stock.luminaires) {
    if (used.contains(item.id)) job.catalogue.luminaires.push_back(item);
  }
  for (const job::TransformerItem& item : stock.transformers) {
    if (used.contains(item.id)) job.catalogue.transformers.push_back(item);
  }
}

struct LotSize {
  double width_m = 0;
  double depth_m = 0;
};

// Few lamps are lit on a small lot.
LotSize size_for(std::uint32_t lamps, wiring::Dice& dice) {
  const double share = lamps <= 12 ? 0.75 : lamps <= 25 ? 0.85 : 1;
  return {rounded_m((28 + 6 * dice.unit()) * share), rounded_m((40 + 9 * dice.unit()) * share)};
}

// A place on the wall of the house; on large lots, or by chance, another on the garage.
void wire_up(const Measures& lot, const Frame& frame, std::uint32_t lamps, wiring::Dice& dice,
             const job::Catalogue& stock, job::Job& job) {
  const double along_wall = 0.2 + 0.6 * dice.unit();
  const double wall_m = lot.house.near_m + along_wall * (lot.house.far_m - lot.house.near_m);
  add_transformer(job, frame.on_site({lot.house.left_m - off_the_wall_m, wall_m}), stock);
  if (lamps < 35 && dice.unit() < 0.6) return;
  add_transformer(job, frame.on_site({lot.garage.right_m + off_the_wall_m, lot.garage.far_m - 1.5}), stock);
}

void build_lot(const Frame& frame, double depth_m, std::uint32_t lamps, const std::string& prefix, wiring::Dice& dice,
               const job::Catalogue& stock, job::Job& job) {
  const Measures lot = draw_ground(frame, depth_m, lamps, prefix, dice, job);
  for (const LampPlace& lamp : lamp_places(lot, lamps, dice)) add_lamp(job, frame.on_site(lamp.place), lamp.item);
  wire_up(lot, frame, lamps, dice, stock, job);
}

// Two rows of lots face each street, back gardens touch.
Frame frame_of(std::uint32_t index, std::uint32_t in_a_row, LotSize size, wiring::Dice& dice) {
  const std::uint32_t row = index / in_a_row;
  const double block_m = 2 * size.depth_m + street_m + 2 * verge_m;
  const bool above = row % 2 == 0;
  const double middle_m = row / 2 * block_m;
  const double to_lot_m = street_m / 2 + verge_m;
  Frame frame;
  frame.width_m = size.width_m;
  frame.origin = {index % in_a_row * size.width_m, middle_m + (above ? to_lot_m : -to_lot_m)};
  frame.face_down = !above;
  frame.swap_sides = dice.below(2) == 1;
  return frame;
}

// One between two rows, and the line round the whole.
void draw_streets(std::uint32_t rows, double right_m, LotSize size, job::Job& job) {
  const double to_lot_m = street_m / 2 + verge_m;
  const double block_m = 2 * (size.depth_m + to_lot_m);
  for (std::uint32_t street = 0; street * 2 < rows; ++street) {
    const double middle_m = street * block_m;
    add_area(job, "street-" + std::to_string(street + 1), job::GroundKind::street,
             {0, middle_m - street_m / 2, right_m, middle_m + street_m / 2});
  }
  const double near_m = rows == 1 ? -street_m / 2 : -(to_lot_m + size.depth_m);
  const double far_m = rounded_m((rows - 1) / 2 * block_m + to_lot_m + size.depth_m);
  right_m = rounded_m(right_m);
  job.plan.property_line = {{0, near_m}, {right_m, near_m}, {right_m, far_m}, {0, far_m}};
}

}  // namespace

job::Job lot(const LotRequest& request, const job::Catalogue& stock) {
  wiring::Dice dice(request.seed * 1000003 + request.lamps);
  job::Job job = blank("lot", request);
  const std::uint32_t lots = std::max(1U, (request.lamps + most_on_a_lot - 1) / most_on_a_lot);
  const std::uint32_t in_a_row = std::min(lots, static_cast<std::uint32_t>(std::ceil(std::sqrt(lots * 1.5))));
  const LotSize size = size_for(request.lamps, dice);
  std::uint32_t left = request.lamps;
  for (std::uint32_t i = 0; i < lots; ++i) {
    const std::uint32_t lamps = left / (lots - i);
    left -= lamps;
    const std::string prefix = lots == 1 ? "" : "lot" + std::to_string(i + 1) + "-";
    const Frame frame = frame_of(i, in_a_row, size, dice);
    build_lot(frame, size.depth_m, lamps, prefix, dice, stock, job);
  }
  draw_streets((lots + in_a_row - 1) / in_a_row, in_a_row * size.width_m, size, job);
  copy_used_items(job, stock);
  return job;
}

job::Job open_lawn(const LotRequest& request, const job::Catalogue& stock) {
  constexpr std::array<const char*, 5> items{"path-2w", "path-3w", "bullet-4w-36", "bullet-6w-24", "wash-3w-60"};
  constexpr double least_apart_m = 2.5;
  wiring::Dice dice(request.seed * 1000033 + request.lamps);
  job::Job job = blank("lawn", request);
  const double side_m = rounded_m(7 * std::sqrt(double(request.lamps)) + 4);
  add_area(job, "lawn", job::GroundKind::lawn, {0, 0, side_m, side_m});
  const Point2 post{0.5, rounded_m(side_m * (0.3 + 0.4 * dice.unit()))};
  std::vector<Point2> taken{post};
  while (job.luminaires.size() < request.lamps) {
    const Point2 place{rounded_m(1 + (side_m - 2) * dice.unit()), rounded_m(1 + (side_m - 2) * dice.unit())};
    const bool is_free = std::all_of(taken.begin(), taken.end(),
                                     [&](Point2 other) { return geometry::distance_m(place, other) >= least_apart_m; });
    if (!is_free) continue;
    taken.push_back(place);
    add_lamp(job, place, items[dice.below(items.size())]);
  }
  add_transformer(job, post, stock);
  copy_used_items(job, stock);
  return job;
}

}  // namespace duskwire::sites
