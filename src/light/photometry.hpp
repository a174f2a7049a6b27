// SPDX-License-Identifier: Apache-2.0
// What a distribution comes to: flux, peak, beam and field angle, zonal lumens, shares up and down, polar curves.
#pragma once

#include <optional>
#include <vector>

#include "light/bug_rating.hpp"
#include "light/distribution.hpp"

namespace duskwire::light {

struct ZonalRow {
  double gamma_from_deg = 0;
  double gamma_to_deg = 0;
  double flux_lm = 0;
  double share_pct = 0;   // of the whole flux
  double so_far_pct = 0;  // of the whole flux, from gamma 0 to this zone's end
};

// Full angles in the plane of C and C + 180 about the axis that the light looks along (down, or up where more than
// half goes up): between the outermost ways that have half, and a tenth, of the plane's highest intensity.
struct BeamAngles {
  double c_deg = 0;
  std::optional<double> beam_deg;   // 50 %; nothing where the light never falls that far
  std::optional<double> field_deg;  // 10 %
};

struct PolarPoint {
  double gamma_deg = 0;
  double intensity_cd = 0;
};
struct PolarCurve {
  double c_deg = 0;
  std::vector<PolarPoint> points;  // gamma 0 to 180
};

struct Photometry {
  double flux_lm = 0;
  double peak_cd = 0;
  double peak_c_deg = 0;  // type C terms whatever the table's own type
  double peak_gamma_deg = 0;
  double down_pct = 0;
  double up_pct = 0;
  std::vector<BeamAngles> beams;  // C 0-180 and C 90-270
  std::vector<ZonalRow> zones;    // ten degrees each
  BugRating bug;
  std::vector<PolarCurve> curves;  // C 0, 90, 180, 270
};

[[nodiscard]] Photometry photometry_of(const Distribution& distribution);

[[nodiscard]] BeamAngles beam_angles(const Distribution& distribution, double c_deg, bool looks_up);

}  // namespace duskwire::light
