// SPDX-License-Identifier: Apache-2.0
#include "study/lamp_distribution.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace duskwire::study {
namespace {

constexpr double usual_beam_deg = 60;  // where the item does not say
constexpr double degree = std::numbers::pi / 180;

// I = I0 cos^n gamma over a hemisphere, half of it at half the beam; flux = 2 pi I0 / (n + 1) (values.md 5.3).
light::Distribution spot(double flux_lm, double beam_deg) {
  const double half = std::clamp(beam_deg, 2.0, 170.0) / 2 * degree;
  const double n = std::log(0.5) / std::log(std::cos(half));
  light::Distribution out;
  out.horizontal_deg = {0};
  for (double gamma = 0; gamma <= 90; gamma += 0.5) {
    out.vertical_deg.push_back(gamma);
    out.intensity_cd.push_back(flux_lm * (n + 1) / (2 * std::numbers::pi) * std::pow(std::cos(gamma * degree), n));
  }
  return out;
}

// A pool below: as much on flat ground at each distance as the hood lets through, nothing above the level.
light::Distribution ring(double flux_lm) {
  light::Distribution out;
  out.horizontal_deg = {0};
  double sum = 0;
  for (double gamma = 0; gamma <= 90; gamma += 1) {
    const double shape = std::sin(gamma * degree) * std::pow(std::cos(gamma * degree), 0.5) + 0.2;
    out.vertical_deg.push_back(gamma);
    out.intensity_cd.push_back(gamma < 90 ? shape : 0);
    sum += out.intensity_cd.back() * std::sin(gamma * degree) * degree;
  }
  for (double& cd : out.intensity_cd) cd *= flux_lm / (2 * std::numbers::pi * sum);
  return out;
}

}  // namespace

light::Distribution distribution_of(const job::LuminaireItem& item) {
  if (item.beam_deg > 170) return ring(item.flux_lm);
  return spot(item.flux_lm, item.beam_deg > 0 ? item.beam_deg : usual_beam_deg);
}

}  // namespace duskwire::study
