// SPDX-License-Identifier: Apache-2.0
// The sums of all lamps' layers, kept from picture to picture. While a hand drags or dims one lamp, the sums of the
// others stay as they are and that lamp's layer is added as the picture is made. Nothing is ever subtracted, so that
// nothing drifts however long the hand moves.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "light/night.hpp"

namespace duskwire::light {

class NightSums {
 public:
  void forget();

  // `touched`: lamps whose layer or state is another than at the last call; all of them where anything else is. True
  // where the sums stay as they were: what differs then is the lamp in hand alone.
  bool update(std::span<const std::vector<float>> layers_lx, std::span<const LampState> states,
              std::span<const std::uint32_t> touched);

  // Valid until the next call and as long as the layers are.
  [[nodiscard]] const NightLight& light() const { return light_; }
  [[nodiscard]] std::optional<std::uint32_t> in_hand() const { return hand_; }

 private:
  void sum(std::span<const std::vector<float>> layers_lx, std::span<const LampState> states);

  bool is_known_ = false;
  std::optional<std::uint32_t> hand_;  // left out of the kept sums
  NightLight light_;
};

}  // namespace duskwire::light
