// SPDX-License-Identifier: Apache-2.0
#include "estimate/dug_ground.hpp"

#include <cmath>

namespace duskwire::estimate {
namespace {

// Twice the reach: no more than four cells can hold a neighbour.
constexpr double cell_m = 2 * shared_trench_m;

std::int64_t cell_along(double coordinate_m) { return static_cast<std::int64_t>(std::floor(coordinate_m / cell_m)); }

std::uint64_t cell_of(std::int64_t column, std::int64_t row) {
  return static_cast<std::uint64_t>(column) << 32U ^ static_cast<std::uint64_t>(row & 0xffffffff);
}

}  // namespace

// Neighbouring cells differ in few bits: spread them by a multiplication (2^64 over the golden ratio).
std::size_t DugGround::CellHash::operator()(std::uint64_t cell) const {
  return static_cast<std::size_t>((cell ^ cell >> 29U) * 0x9e3779b97f4a7c15U >> 16U);
}

void DugGround::add(geometry::Point2 point) {
  const auto cell = cell_of(cell_along(point.x_m), cell_along(point.y_m));
  const auto [place, is_new] = first_in_cell_.try_emplace(cell, -1);
  spots_.push_back({point, place->second});
  place->second = static_cast<std::int32_t>(spots_.size() - 1);
}

bool DugGround::is_open_at(geometry::Point2 point) const {
  constexpr double square_m2 = shared_trench_m * shared_trench_m;
  const std::int64_t last_column = cell_along(point.x_m + shared_trench_m);
  const std::int64_t last_row = cell_along(point.y_m + shared_trench_m);
  for (std::int64_t column = cell_along(point.x_m - shared_trench_m); column <= last_column; ++column) {
    for (std::int64_t row = cell_along(point.y_m - shared_trench_m); row <= last_row; ++row) {
      const auto found = first_in_cell_.find(cell_of(column, row));
      if (found == first_in_cell_.end()) continue;
      for (std::int32_t i = found->second; i >= 0; i = spots_[static_cast<std::size_t>(i)].next) {
        const geometry::Point2 spot = spots_[static_cast<std::size_t>(i)].point;
        const double x_m = spot.x_m - point.x_m;
        const double y_m = spot.y_m - point.y_m;
        if (x_m * x_m + y_m * y_m <= square_m2) return true;
      }
    }
  }
  return false;
}

}  // namespace duskwire::estimate
