// SPDX-License-Identifier: Apache-2.0
// Moments of straight lines under 1, sin and cos; light/angle_weights.hpp says what they are for.
#include "light/angle_weights.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/units.hpp"

namespace duskwire::light {
namespace {

struct Moments {
  double whole = 0;   // integral of m(t)
  double rising = 0;  // integral of (t - a) / (b - a) m(t)
};

Moments plain_moments(double a, double b, double p, double q) {
  return {q - p, ((q - a) * (q - a) - (p - a) * (p - a)) / (2 * (b - a))};
}

// With `shift` pi/2 the sine becomes a cosine. The primitive of (t - a) sin(t + s) is -(t - a) cos(t + s) + sin(t + s).
Moments sine_moments(double a, double b, double p, double q, double shift) {
  const auto primitive = [&](double t) { return -(t - a) * std::cos(t + shift) + std::sin(t + shift); };
  return {2 * std::sin((p + q) / 2 + shift) * std::sin((q - p) / 2), (primitive(q) - primitive(p)) / (b - a)};
}

Moments moments(AngleMeasure measure, double a, double b, double p, double q) {
  switch (measure) {
    case AngleMeasure::plain:
      return plain_moments(a, b, p, q);
    case AngleMeasure::sine:
      return sine_moments(a, b, p, q, 0);
    case AngleMeasure::cosine:
      return sine_moments(a, b, p, q, std::numbers::pi / 2);
  }
  return {};
}

}  // namespace

std::vector<double> angle_weights(std::span<const double> angles_deg, AngleMeasure measure, double from_deg,
                                  double to_deg) {
  std::vector<double> weights(angles_deg.size(), 0.0);
  if (!(to_deg > from_deg)) return weights;
  const double from = from_deg * units::rad_per_deg;
  const double to = to_deg * units::rad_per_deg;
  if (angles_deg.size() == 1) {
    weights[0] = moments(measure, from, to, from, to).whole;
    return weights;
  }
  for (std::size_t i = 0; i + 1 < angles_deg.size(); ++i) {
    const double a = angles_deg[i] * units::rad_per_deg;
    const double b = angles_deg[i + 1] * units::rad_per_deg;
    const double p = std::max(a, from);
    const double q = std::min(b, to);
    if (!(q > p)) continue;
    const Moments m = moments(measure, a, b, p, q);
    weights[i] += m.whole - m.rising;
    weights[i + 1] += m.rising;
  }
  return weights;
}

}  // namespace duskwire::light
