// SPDX-License-Identifier: Apache-2.0
// Which transformers may be proposed for a garden: the planner's and the starter's one rule. Internal to the room.
#pragma once

#include "job/catalogue.hpp"

namespace duskwire::study {

// Above this the taps of a transformer are for places that stay dry (NFPA 70 chapter 9, table 11(A), wet contact).
inline constexpr double highest_wet_tap_v = 15;

[[nodiscard]] inline bool suits_a_garden(const job::TransformerItem& item) {
  return item.outdoor_listed && !item.taps_v.empty() && item.taps_v.back() <= highest_wet_tap_v;
}

}  // namespace duskwire::study
