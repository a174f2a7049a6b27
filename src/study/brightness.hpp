// SPDX-License-Identifier: Apache-2.0
// The order in which the eye finds what is lit: luminance of each place, brightest first. Internal to the room.
#pragma once

#include <vector>

#include "study/levels.hpp"

namespace duskwire::study {

[[nodiscard]] std::vector<BrightnessRow> brightness_order(const std::vector<PlaceLevels>& places);

// Of matt surfaces as they are met outdoors (common practice, no source): what a place is made of is not in the plan.
[[nodiscard]] double usual_reflectance(LitPlace place);

// Shares of the brightest from which a place is a focal point, a support, a background; darker is dark (common
// practice, no source: about three to one from each to the next).
inline constexpr double focal_from = 0.6;
inline constexpr double support_from = 0.2;
inline constexpr double background_from = 0.03;

}  // namespace duskwire::study
