// SPDX-License-Identifier: Apache-2.0
#include "sites/lamp_places.hpp"

#include <algorithm>
#include <array>

namespace duskwire::sites {
namespace {

using geometry::Point2;

// Lamps in a row, alternately this far to either side of it.
struct Row {
  Point2 from;
  Point2 to;
  double aside_m = 0;
  double weight = 0;  // share of the lamps
  std::array<const char*, 3> items{};
};

constexpr std::array<const char*, 3> facade{"wash-5w-90", "wash-3w-60", "bullet-4w-36"};
constexpr std::array<const char*, 3> paths{"path-3w", "path-2w", "path-4w"};
constexpr std::array<const char*, 3> beds{"path-2w", "bullet-3w-24", "wash-3w-90"};
constexpr std::array<const char*, 3> trees{"bullet-6w-24", "bullet-9w-36", "well-8w-30"};

Row along(const Box& bed, double weight, const std::array<const char*, 3>& items) {
  const bool lies_across = bed.right_m - bed.left_m > bed.far_m - bed.near_m;
  const Point2 middle{(bed.left_m + bed.right_m) / 2, (bed.near_m + bed.far_m) / 2};
  if (lies_across) return {{bed.left_m, middle.y_m}, {bed.right_m, middle.y_m}, 0.2, weight, items};
  return {{middle.x_m, bed.near_m}, {middle.x_m, bed.far_m}, 0.2, weight, items};
}

// Half a metre from the edges of the walk: on both sides, or on the street's where it runs along the front.
Row beside_walk(const Measures& lot, double weight) {
  const Box& walk = lot.walk.front();
  Row row = along(walk, weight, paths);
  if (lot.walk.size() == 1) {
    row.aside_m = 1.1;
    row.to.y_m = lot.left_bed.near_m - 0.5;
  } else {
    row.aside_m = 0;
    row.from = {lot.left_bed.left_m, walk.near_m - 0.5};
    row.to = {walk.right_m - 0.5, walk.near_m - 0.5};
  }
  return row;
}

std::vector<Row> rows_of(const Measures& lot) {
  std::vector<Row> rows{along(lot.left_bed, 2, facade), along(lot.right_bed, 2, facade), beside_walk(lot, 3),
                        along(lot.back_bed, 4, beds), along(lot.side_bed, 2, beds)};
  const double patio_edge_m = lot.patio.far_m + 0.4;
  rows.push_back({{lot.patio.left_m, patio_edge_m}, {lot.patio.right_m, patio_edge_m}, 0, 1.5, paths});
  const double drive_edge_m = lot.garage.right_m + 0.3;
  rows.push_back({{drive_edge_m, 1.5}, {drive_edge_m, lot.garage.near_m - 1}, 0, 1.5, paths});
  for (const Point2& tree : lot.front_trees) rows.push_back({tree, tree, 0.9, 1.5, trees});
  for (const Point2& tree : lot.grove_trees) rows.push_back({tree, tree, 0.9, 1.5, trees});
  return rows;
}

// Largest remainders, so that the counts sum up.
std::vector<std::uint32_t> shared_out(const std::vector<Row>& rows, std::uint32_t lamps) {
  double sum = 0;
  for (const Row& row : rows) sum += row.weight;
  std::vector<std::uint32_t> counts;
  std::vector<std::pair<double, std::size_t>> rest;
  std::uint32_t given = 0;
  for (std::size_t r = 0; r < rows.size(); ++r) {
    const double share = lamps * rows[r].weight / sum;
    counts.push_back(static_cast<std::uint32_t>(share));
    given += counts.back();
    rest.emplace_back(counts.back() - share, r);
  }
  std::sort(rest.begin(), rest.end());
  for (std::size_t i = 0; given < lamps; ++i, ++given) ++counts[rest[i].second];
  return counts;
}

// Round a tree the lamps stand on a square turned by 45 degrees, in a row they alternate.
Point2 place_in(const Row& row, std::uint32_t index, std::uint32_t count, wiring::Dice& dice) {
  const double dx_m = row.to.x_m - row.from.x_m;
  const double dy_m = row.to.y_m - row.from.y_m;
  if (dx_m == 0 && dy_m == 0) {
    const double reach_m = row.aside_m * (0.9 + 0.4 * dice.unit());
    constexpr std::array<Point2, 4> ways{Point2{1, 0}, Point2{-1, 0}, Point2{0, 1}, Point2{0, -1}};
    const Point2 way = ways[index % ways.size()];
    return {row.from.x_m + way.x_m * reach_m, row.from.y_m + way.y_m * reach_m};
  }
  const double share = (index + 0.5 + 0.4 * (dice.unit() - 0.5)) / count;
  const double aside_m = index % 2 == 0 ? row.aside_m : -row.aside_m;
  const bool lies_across = dx_m > dy_m;
  return {row.from.x_m + share * dx_m + (lies_across ? 0 : aside_m),
          row.from.y_m + share * dy_m + (lies_across ? aside_m : 0)};
}

}  // namespace

std::vector<LampPlace> lamp_places(const Measures& lot, std::uint32_t lamps, wiring::Dice& dice) {
  const std::vector<Row> rows = rows_of(lot);
  const std::vector<std::uint32_t> counts = shared_out(rows, lamps);
  std::vector<LampPlace> places;
  for (std::size_t r = 0; r < rows.size(); ++r) {
    for (std::uint32_t i = 0; i < counts[r]; ++i) {
      const Point2 place = place_in(rows[r], i, counts[r], dice);
      places.push_back({place, rows[r].items[dice.below(rows[r].items.size())]});
    }
  }
  return places;
}

}  // namespace duskwire::sites
