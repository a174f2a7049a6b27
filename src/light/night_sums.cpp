// SPDX-License-Identifier: Apache-2.0
#include "light/night_sums.hpp"

#include <algorithm>

namespace duskwire::light {

void NightSums::forget() {
  is_known_ = false;
  hand_.reset();
  light_ = {};
}

bool NightSums::update(std::span<const std::vector<float>> layers_lx, std::span<const LampState> states,
                       std::span<const std::uint32_t> touched) {
  const bool is_one = touched.size() == 1;
  const bool may_stay = is_known_ && (touched.empty() || (is_one && hand_ == touched[0]));
  if (!may_stay) {
    hand_ = is_known_ && is_one ? std::optional(touched[0]) : std::nullopt;
    sum(layers_lx, states);
    is_known_ = true;
  }
  light_.hand = {};
  if (hand_) light_.hand = {layers_lx[*hand_], states[*hand_]};
  return may_stay;
}

void NightSums::sum(std::span<const std::vector<float>> layers_lx, std::span<const LampState> states) {
  std::vector<LampState> summed(states.begin(), states.end());
  if (hand_) summed[*hand_].share = 0;
  light_.by_colour = sum_by_colour(layers_lx, summed);
  light_.all_lx.clear();
  for (std::size_t lamp = 0; lamp < layers_lx.size(); ++lamp) {
    if (hand_ == lamp || layers_lx[lamp].empty()) continue;
    light_.all_lx.resize(layers_lx[lamp].size());
    add_layer(layers_lx[lamp], 1, light_.all_lx);
  }
}

}  // namespace duskwire::light
