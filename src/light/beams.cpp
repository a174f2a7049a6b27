// SPDX-License-Identifier: Apache-2.0
// Each beam is tabled from its formula and then scaled to its flux, so that the table itself carries the flux.
#include "light/beams.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <numbers>

#include "base/units.hpp"

namespace duskwire::light {
namespace {

double held(double beam_deg) { return std::clamp(beam_deg, narrowest_beam_deg, widest_beam_deg); }

double radians(double angle_deg) { return angle_deg * units::rad_per_deg; }

// 0 to end: a fiftieth of the beam apart within 1.5 beams, 2 degrees beyond. The straight pieces then lie less than
// 0.05 % off.
std::vector<double> fine_angles(double beam_deg, double end_deg) {
  const double fine_end_deg = std::min(1.5 * beam_deg, end_deg);
  const auto fine = static_cast<int>(std::ceil(fine_end_deg / std::min(beam_deg / 50, 1.0)));
  std::vector<double> angles_deg;
  for (int i = 0; i <= fine; ++i) angles_deg.push_back(fine_end_deg * i / fine);
  const auto coarse = static_cast<int>(std::ceil((end_deg - fine_end_deg) / 2));
  for (int i = 1; i <= coarse; ++i) angles_deg.push_back(fine_end_deg + (end_deg - fine_end_deg) * i / coarse);
  return angles_deg;
}

std::vector<double> even_angles(double step_deg, double end_deg) {
  std::vector<double> angles_deg;
  for (int i = 0; i <= std::lround(end_deg / step_deg); ++i) angles_deg.push_back(i * step_deg);
  return angles_deg;
}

Distribution tabled(std::vector<double> c_deg, std::vector<double> gamma_deg, double wanted_lm,
                    const std::function<double(double c, double gamma)>& relative) {
  Distribution d{PhotometricType::c, std::move(c_deg), std::move(gamma_deg), {}};
  d.intensity_cd.reserve(d.horizontal_deg.size() * d.vertical_deg.size());
  for (const double c : d.horizontal_deg) {
    for (const double gamma : d.vertical_deg) d.intensity_cd.push_back(relative(radians(c), radians(gamma)));
  }
  const double scale = wanted_lm / flux_lm(d);
  for (double& intensity_cd : d.intensity_cd) intensity_cd *= scale;
  return d;
}

double cosine_power(double gamma, double power) { return std::pow(std::max(std::cos(gamma), 0.0), power); }

// 1 up to `whole`, 0 from `none` on, straight between.
double faded(double angle, double whole, double none) { return std::clamp((none - angle) / (none - whole), 0.0, 1.0); }

constexpr double ring_peak_deg = 65;
constexpr double ring_end_deg = 85;

double ring_relative(double gamma) {
  const double peak = radians(ring_peak_deg);
  return std::pow(std::cos(std::min(gamma, peak)), -1.5) * faded(gamma, peak, radians(ring_end_deg));
}

// How far a turn is from C 0 either way.
double off_front(double c) { return std::min(c, 2 * std::numbers::pi - c); }

}  // namespace

double cosine_power_from_beam(double beam_deg) {
  return std::log(0.5) / std::log(std::cos(radians(held(beam_deg) / 2)));
}

Distribution spot_beam(double beam_deg, double flux_lm) {
  const double power = cosine_power_from_beam(beam_deg);
  return tabled({0}, fine_angles(held(beam_deg), 90), flux_lm,
                [&](double, double gamma) { return cosine_power(gamma, power); });
}

Distribution flood_beam(double beam_deg, double flux_lm) {
  const double half = radians(held(beam_deg) / 2);
  return tabled({0}, fine_angles(held(beam_deg), 90), flux_lm,
                [&](double, double gamma) { return 1 / (1 + std::pow(gamma / half, 6)); });
}

Distribution wash_beam(double wide_deg, double up_deg, double flux_lm) {
  const double wide = cosine_power_from_beam(wide_deg);
  const double up = cosine_power_from_beam(up_deg);
  return tabled(even_angles(5, 360), fine_angles(std::min(held(wide_deg), held(up_deg)), 90), flux_lm,
                [&](double c, double gamma) {
                  return cosine_power(gamma, up * std::cos(c) * std::cos(c) + wide * std::sin(c) * std::sin(c));
                });
}

Distribution ring_beam(double flux_lm) {
  return tabled({0}, even_angles(1, ring_end_deg), flux_lm, [](double, double gamma) { return ring_relative(gamma); });
}

Distribution half_ring_beam(double flux_lm) {
  return tabled(even_angles(15, 360), even_angles(1, ring_end_deg), flux_lm, [](double c, double gamma) {
    return ring_relative(gamma) * faded(off_front(c), radians(75), radians(105));
  });
}

Distribution step_beam(double beam_deg, double flux_lm) {
  const double power = cosine_power_from_beam(beam_deg);
  return tabled(even_angles(5, 360), even_angles(1, 80), flux_lm, [&](double c, double gamma) {
    if (off_front(c) > radians(90.001)) return 0.0;
    const double off_axis_cos = (std::sin(gamma) * std::cos(c) + std::cos(gamma)) / std::numbers::sqrt2;
    return std::pow(std::max(off_axis_cos, 0.0), power) * faded(gamma, radians(60), radians(80));
  });
}

Distribution all_round_beam(double flux_lm) {
  return tabled({0}, even_angles(45, 180), flux_lm, [](double, double) { return 1.0; });
}

}  // namespace duskwire::light
