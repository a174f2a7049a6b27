// SPDX-License-Identifier: Apache-2.0
#include "light/energy_balance.hpp"

#include <numeric>

#include "light/distribution.hpp"

namespace duskwire::light {
namespace {

using geometry::Point3;
using geometry::Vec3;

// E integrated over a parallelogram that faces along `normal`, by the middles of its cells.
double caught_lm(const LitScene& scene, Point3 corner, Vec3 side, Vec3 other, Vec3 normal, int cells) {
  std::vector<Receiver> receivers;
  receivers.reserve(static_cast<std::size_t>(cells) * static_cast<std::size_t>(cells));
  for (int i = 0; i < cells; ++i) {
    for (int j = 0; j < cells; ++j) {
      receivers.push_back({corner + (i + 0.5) / cells * side + (j + 0.5) / cells * other, normal});
    }
  }
  std::vector<float> lx(receivers.size());
  scene.illuminance_lx(receivers, lx);
  return std::accumulate(lx.begin(), lx.end(), 0.0) * length(cross(side, other)) / static_cast<double>(lx.size());
}

}  // namespace

EnergyBalance energy_balance(const LitScene& scene, const ClosedBox& box, int cells) {
  EnergyBalance balance;
  for (const Lamp& lamp : scene.scene().lamps) {
    balance.sent_lm += lamp.share * flux_lm(scene.scene().distributions[lamp.distribution]);
  }
  const Vec3 size = box.high - box.low;
  const Vec3 x{size.x, 0, 0};
  const Vec3 y{0, size.y, 0};
  const Vec3 z{0, 0, size.z};
  balance.caught_lm += caught_lm(scene, box.low, x, y, {0, 0, 1}, cells);
  balance.caught_lm += caught_lm(scene, box.low, y, z, {1, 0, 0}, cells);
  balance.caught_lm += caught_lm(scene, box.low, z, x, {0, 1, 0}, cells);
  balance.caught_lm += caught_lm(scene, box.high, -x, -y, {0, 0, -1}, cells);
  balance.caught_lm += caught_lm(scene, box.high, -y, -z, {-1, 0, 0}, cells);
  balance.caught_lm += caught_lm(scene, box.high, -z, -x, {0, -1, 0}, cells);
  return balance;
}

}  // namespace duskwire::light
