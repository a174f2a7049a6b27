// SPDX-License-Identifier: Apache-2.0
#include "study/corners.hpp"

#include <algorithm>
#include <cmath>

#include "electrical/conductor.hpp"

namespace duskwire::study {
namespace {

constexpr double most_tolerance_pct = 50;
constexpr double least_cable_c = -40;
constexpr double most_cable_c = 150;

double tolerance(double pct) { return std::isfinite(pct) ? std::clamp(pct, 0.0, most_tolerance_pct) / 100 : 0.0; }

double cable_temperature_c(double value_c, double otherwise_c) {
  return std::isfinite(value_c) ? std::clamp(value_c, least_cable_c, most_cable_c) : otherwise_c;
}

struct Range {
  double low = 0;
  double high = 0;
  [[nodiscard]] std::vector<double> ends() const {
    if (low == high) return {low};
    return {low, high};
  }
};

struct Ranges {
  Corner nominal;
  Range mains;
  Range cable_c;
  Range length;
};

Ranges ranges_of(const job::Corners& site) {
  constexpr double usual_c = 20;
  const double mains = tolerance(site.mains_tolerance_pct);
  const double length = tolerance(site.length_tolerance_pct);
  Ranges ranges;
  ranges.nominal.cable_c = cable_temperature_c(site.cable_nominal_c, usual_c);
  const double cold_c = cable_temperature_c(site.cable_cold_c, ranges.nominal.cable_c);
  const double hot_c = cable_temperature_c(site.cable_hot_c, ranges.nominal.cable_c);
  ranges.mains = {1 - mains, 1 + mains};
  ranges.cable_c = {std::min({cold_c, hot_c, ranges.nominal.cable_c}),
                    std::max({cold_c, hot_c, ranges.nominal.cable_c})};
  ranges.length = {1 - length, 1 + length};
  return ranges;
}

void append(std::string& words, const char* more) {
  if (!words.empty()) words += ", ";
  words += more;
}

}  // namespace

std::vector<Corner> corners_of(const job::Corners& site) {
  const Ranges ranges = ranges_of(site);
  std::vector<Corner> corners{ranges.nominal};
  for (const double mains : ranges.mains.ends()) {
    for (const double cable_c : ranges.cable_c.ends()) {
      for (const double length : ranges.length.ends()) {
        const Corner corner{mains, cable_c, length, false};
        const bool nominal = mains == 1 && cable_c == ranges.nominal.cable_c && length == 1;
        if (!nominal) corners.push_back(corner);
      }
    }
  }
  if (site.few_lamps) corners.push_back({ranges.mains.high, ranges.cable_c.low, ranges.length.low, true});
  return corners;
}

Corner weakest_corner(const job::Corners& site) {
  const Ranges ranges = ranges_of(site);
  return {ranges.mains.low, ranges.cable_c.high, ranges.length.high, false};
}

std::string corner_words(const Corner& corner, const Corner& nominal) {
  std::string words;
  if (corner.lone_lamps) append(words, "one lamp on");
  if (corner.mains_factor != nominal.mains_factor) append(words, corner.mains_factor < 1 ? "mains low" : "mains high");
  if (corner.cable_c != nominal.cable_c) append(words, corner.cable_c < nominal.cable_c ? "cable cold" : "cable hot");
  if (corner.length_factor != nominal.length_factor) append(words, corner.length_factor < 1 ? "short" : "long");
  return words.empty() ? "nominal" : words;
}

void set_condition(electrical::Condition& condition, const Corner& corner) {
  condition.mains_factor = corner.mains_factor;
  condition.copper_factor = electrical::copper_temperature_factor(corner.cable_c) * corner.length_factor;
}

}  // namespace duskwire::study
