// SPDX-License-Identifier: Apache-2.0
// Flux by zones of angle, exact for straight lines between a table's entries.
#pragma once

#include "light/distribution.hpp"

namespace duskwire::light {

// A part of the sphere in the frame of type C.
struct Zone {
  double gamma_from_deg = 0;
  double gamma_to_deg = 180;
  double c_from_deg = 0;  // the turn may pass 360: from 270 to 450 is the front half
  double c_to_deg = 360;
};

// The same light as a table of type C: one of types A and B is read anew every `step_deg`, so that its zones are close
// but not exact.
[[nodiscard]] Distribution as_type_c(const Distribution& distribution, double step_deg = 1);

// Precondition: type C.
[[nodiscard]] double zone_flux_lm(const Distribution& distribution, const Zone& zone);

// 2 pi (cos g1 - cos g2): what turns a mean intensity into flux (values.md 5.4).
[[nodiscard]] double zonal_constant_sr(double gamma_from_deg, double gamma_to_deg);

}  // namespace duskwire::light
