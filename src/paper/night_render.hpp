// SPDX-License-Identifier: Apache-2.0
// The night of a photograph at its full size, on several threads: bands of rows, one lamp after the other on each, no
// layer kept. The only place where the engine of light meets threads; command and server both come here.
#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <vector>

#include "light/night.hpp"
#include "study/night_view.hpp"

namespace duskwire::paper {

struct RenderedNight {
  std::uint32_t width_px = 0;
  std::uint32_t height_px = 0;
  std::vector<std::uint8_t> rgba;
  double adaptation_cd_m2 = 0;
};

// Told from time to time how much is done, 0 to 1; false ends the work. Never called from two threads at once.
using NightProgress = std::function<bool(double share)>;

// Nothing where it was ended. Light of a lamp that is below 0.01 lx where it arrives is not followed.
[[nodiscard]] std::optional<RenderedNight> render_night(const light::Photograph& photograph,
                                                        const study::NightView& view, unsigned threads,
                                                        const NightProgress& progress = {});

}  // namespace duskwire::paper
