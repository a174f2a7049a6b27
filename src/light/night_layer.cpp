// SPDX-License-Identifier: Apache-2.0
// Layers of light: one lamp's on the elements of a band, and sums of them.
#include <algorithm>
#include <cmath>

#include "light/night.hpp"

namespace duskwire::light {
namespace {

// The mean of |cos| over leaves that face every way alike.
constexpr float leaf_share = 0.5F;

}  // namespace

void night_layer(const NightGrid& grid, const LitScene& scene, std::uint32_t lamp, std::vector<float>& out_lx,
                 const Care& care) {
  const Lamp& source = scene.scene().lamps[lamp];
  out_lx.assign(grid.receivers.size(), 0);
  if (!(source.share > 0)) return;
  scene.add_lamp_lx(lamp, grid.blocks, out_lx, care);
  const auto at_full = static_cast<float>(1 / source.share);
  for (std::size_t i = 0; i < out_lx.size(); ++i) {
    out_lx[i] *= grid.is_foliage[i] != 0 ? leaf_share * at_full : at_full;
  }
}

void add_layer(std::span<const float> layer_lx, float share, std::span<float> sum_lx) {
  const std::size_t count = std::min(layer_lx.size(), sum_lx.size());
  const float* from = layer_lx.data();
  float* to = sum_lx.data();
  for (std::size_t i = 0; i < count; ++i) to[i] += share * from[i];
}

std::vector<ColouredLight> sum_by_colour(std::span<const std::vector<float>> layers_lx,
                                         std::span<const LampState> states) {
  std::vector<ColouredLight> lights;
  for (std::size_t lamp = 0; lamp < layers_lx.size() && lamp < states.size(); ++lamp) {
    const LampState& state = states[lamp];
    if (!(state.share > 0) || layers_lx[lamp].empty()) continue;
    auto light = std::find_if(lights.begin(), lights.end(), [&](const ColouredLight& known) {
      return known.colour_temperature_k == state.colour_temperature_k;
    });
    if (light == lights.end()) {
      lights.push_back({state.colour_temperature_k, std::vector<float>(layers_lx[lamp].size())});
      light = lights.end() - 1;
    }
    add_layer(layers_lx[lamp], static_cast<float>(state.share), light->lx);
  }
  return lights;
}

}  // namespace duskwire::light
