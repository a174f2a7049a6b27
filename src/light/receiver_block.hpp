// SPDX-License-Identifier: Apache-2.0
// A few dozen neighbouring receivers, number by number instead of place by place, as the hot loop reads them, with the
// ball that holds them: what a lamp cannot do to the ball it cannot do to any of them.
#pragma once

#include <array>
#include <cstddef>
#include <span>
#include <vector>

#include "light/scene.hpp"

namespace duskwire::light {

struct ReceiverBlock {
  static constexpr std::size_t capacity = 64;
  using Numbers = std::array<float, capacity>;

  geometry::Point3 base;  // positions are differences from it: single precision is enough for them
  alignas(64) Numbers x_m;
  alignas(64) Numbers y_m;
  alignas(64) Numbers z_m;
  alignas(64) Numbers normal_x;
  alignas(64) Numbers normal_y;
  alignas(64) Numbers normal_z;
  alignas(64) Numbers turns;  // 1 for a place that turns to each lamp, else 0
  std::size_t count = 0;      // beyond it the last receiver is repeated
  float radius_m = 0;         // of the ball around `base`
  bool flat = true;           // all face one way, and none turns
};

// At most `capacity` receivers, at least one.
void fill_block(std::span<const Receiver> receivers, ReceiverBlock& block);

// All of them, in their order: for receivers that many lamps are asked about one by one.
[[nodiscard]] std::vector<ReceiverBlock> blocks_of(std::span<const Receiver> receivers);

}  // namespace duskwire::light
