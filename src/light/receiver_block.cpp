// SPDX-License-Identifier: Apache-2.0
#include "light/receiver_block.hpp"

#include <algorithm>
#include <cmath>

namespace duskwire::light {

using geometry::Point3;
using geometry::Vec3;

void fill_block(std::span<const Receiver> receivers, ReceiverBlock& block) {
  // Half way between the first and the last: near the middle of a piece of a row of picture elements.
  const Point3 first = receivers.front().position;
  block.base = first + 0.5 * (receivers.back().position - first);
  block.count = receivers.size();
  block.flat = receivers.front().normal != Vec3{0, 0, 0};
  float square_m2 = 0;
  for (std::size_t i = 0; i < ReceiverBlock::capacity; ++i) {
    const Receiver& receiver = receivers[std::min(i, receivers.size() - 1)];
    const Vec3 from_base = receiver.position - block.base;
    block.x_m[i] = static_cast<float>(from_base.x);
    block.y_m[i] = static_cast<float>(from_base.y);
    block.z_m[i] = static_cast<float>(from_base.z);
    block.normal_x[i] = static_cast<float>(receiver.normal.x);
    block.normal_y[i] = static_cast<float>(receiver.normal.y);
    block.normal_z[i] = static_cast<float>(receiver.normal.z);
    square_m2 =
        std::max(square_m2, block.x_m[i] * block.x_m[i] + block.y_m[i] * block.y_m[i] + block.z_m[i] * block.z_m[i]);
    block.turns[i] = receiver.normal == Vec3{0, 0, 0} ? 1.0F : 0.0F;
    block.flat = block.flat && receiver.normal == receivers.front().normal;
  }
  block.radius_m = std::sqrt(square_m2) * 1.0001F;
}

std::vector<ReceiverBlock> blocks_of(std::span<const Receiver> receivers) {
  std::vector<ReceiverBlock> blocks((receivers.size() + ReceiverBlock::capacity - 1) / ReceiverBlock::capacity);
  for (std::size_t i = 0; i < blocks.size(); ++i) {
    const std::size_t first = i * ReceiverBlock::capacity;
    fill_block(receivers.subspan(first, std::min(ReceiverBlock::capacity, receivers.size() - first)), blocks[i]);
  }
  return blocks;
}

}  // namespace duskwire::light
