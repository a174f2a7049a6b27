// SPDX-License-Identifier: Apache-2.0
#include "light/photometry.hpp"

#include <algorithm>
#include <cmath>

#include "light/zones.hpp"

namespace duskwire::light {
namespace {

constexpr double zone_step_deg = 10;
constexpr double curve_step_deg = 2.5;
constexpr double scan_step_deg = 0.25;

// Intensity at an angle off the axis within the plane of C and C + 180: towards C where it is positive.
double off_axis_cd(const Distribution& d, double c_deg, bool looks_up, double off_deg) {
  const double gamma_deg = looks_up ? 180 - std::abs(off_deg) : std::abs(off_deg);
  return direction_cd(d, way_from_angles(PhotometricType::c, {off_deg < 0 ? c_deg + 180 : c_deg, gamma_deg}));
}

// Angle off the axis at which the light falls below `limit_cd` for good, going out to one side. 0: it never reaches it.
std::optional<double> last_above(const Distribution& d, double c_deg, bool looks_up, double side, double limit_cd) {
  const auto at = [&](double off_deg) { return off_axis_cd(d, c_deg, looks_up, side * off_deg); };
  double inside_deg = 180;
  while (inside_deg > 0 && at(inside_deg) < limit_cd) inside_deg -= scan_step_deg;
  if (inside_deg >= 180) return std::nullopt;
  if (inside_deg <= 0) return 0;
  double outside_deg = inside_deg + scan_step_deg;
  for (int i = 0; i < 40; ++i) {
    const double middle_deg = (inside_deg + outside_deg) / 2;
    (at(middle_deg) < limit_cd ? outside_deg : inside_deg) = middle_deg;
  }
  return inside_deg;
}

void find_peak(const Distribution& d, Photometry& result) {
  const auto top = std::max_element(d.intensity_cd.begin(), d.intensity_cd.end());
  const auto index = static_cast<std::size_t>(top - d.intensity_cd.begin());
  const std::size_t rows = d.vertical_deg.size();
  const PhotometricAngles own{d.horizontal_deg[index / rows], d.vertical_deg[index % rows]};
  const PhotometricAngles angles =
      d.type == PhotometricType::c ? own : angles_from_way(PhotometricType::c, way_from_angles(d.type, own));
  result.peak_cd = *top;
  result.peak_c_deg = angles.horizontal_deg;
  result.peak_gamma_deg = angles.vertical_deg;
}

std::vector<ZonalRow> zonal_rows(const Distribution& type_c, double whole_lm) {
  std::vector<ZonalRow> rows;
  double so_far_lm = 0;
  for (double from_deg = 0; from_deg < 180; from_deg += zone_step_deg) {
    ZonalRow row{from_deg, from_deg + zone_step_deg};
    row.flux_lm = zone_flux_lm(type_c, {from_deg, row.gamma_to_deg});
    so_far_lm += row.flux_lm;
    row.share_pct = whole_lm > 0 ? 100 * row.flux_lm / whole_lm : 0;
    row.so_far_pct = whole_lm > 0 ? 100 * so_far_lm / whole_lm : 0;
    rows.push_back(row);
  }
  return rows;
}

std::vector<PolarCurve> polar_curves(const Distribution& d) {
  std::vector<PolarCurve> curves;
  for (const double c_deg : {0.0, 90.0, 180.0, 270.0}) {
    PolarCurve curve{c_deg, {}};
    for (double gamma_deg = 0; gamma_deg <= 180; gamma_deg += curve_step_deg) {
      curve.points.push_back({gamma_deg, direction_cd(d, way_from_angles(PhotometricType::c, {c_deg, gamma_deg}))});
    }
    curves.push_back(std::move(curve));
  }
  return curves;
}

}  // namespace

BeamAngles beam_angles(const Distribution& d, double c_deg, bool looks_up) {
  double top_cd = 0;
  for (double off_deg = -180; off_deg <= 180; off_deg += scan_step_deg) {
    top_cd = std::max(top_cd, off_axis_cd(d, c_deg, looks_up, off_deg));
  }
  BeamAngles angles{c_deg, std::nullopt, std::nullopt};
  if (!(top_cd > 0)) return angles;
  const auto width = [&](double share) -> std::optional<double> {
    const auto left = last_above(d, c_deg, looks_up, -1, share * top_cd);
    const auto right = last_above(d, c_deg, looks_up, 1, share * top_cd);
    if (!left || !right) return std::nullopt;
    return *left + *right;
  };
  angles.beam_deg = width(0.5);
  angles.field_deg = width(0.1);
  return angles;
}

Photometry photometry_of(const Distribution& d) {
  const Distribution type_c = as_type_c(d);
  Photometry result;
  result.flux_lm = flux_lm(d);
  find_peak(d, result);
  const double sum_lm = flux_lm(type_c);
  result.zones = zonal_rows(type_c, sum_lm);
  result.down_pct = sum_lm > 0 ? 100 * zone_flux_lm(type_c, {0, 90}) / sum_lm : 0;
  result.up_pct = sum_lm > 0 ? 100 - result.down_pct : 0;
  const bool looks_up = result.up_pct > 50;
  result.beams = {beam_angles(d, 0, looks_up), beam_angles(d, 90, looks_up)};
  result.bug = bug_rating(type_c);
  result.curves = polar_curves(d);
  return result;
}

}  // namespace duskwire::light
