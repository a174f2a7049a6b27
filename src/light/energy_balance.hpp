// SPDX-License-Identifier: Apache-2.0
// Whether light is neither made nor lost on the way: what arrives at the inside of a closed box is what its lamps send.
#pragma once

#include "light/illuminance.hpp"

namespace duskwire::light {

struct ClosedBox {
  geometry::Point3 low;
  geometry::Point3 high;
};

struct EnergyBalance {
  double sent_lm = 0;    // by the tables of the lamps within the box, times their shares
  double caught_lm = 0;  // sum of illuminance times area over the six faces, `cells` by `cells` each
};

// Of the lamps in a scene, all within the box. What is solid, and crowns, keep their part: it is missing in `caught`.
[[nodiscard]] EnergyBalance energy_balance(const LitScene& scene, const ClosedBox& box, int cells);

}  // namespace duskwire::light
