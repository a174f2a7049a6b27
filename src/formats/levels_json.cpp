// SPDX-License-Identifier: Apache-2.0
#include "formats/levels_json.hpp"

#include <cmath>

#include "formats/result_levels.hpp"
#include "formats/shape_change.hpp"
#include "formats/write_result.hpp"

namespace duskwire::formats {
namespace {

double three_figures(double value) {
  if (value == 0 || !std::isfinite(value)) return value;
  const double step = std::pow(10.0, 2 - std::floor(std::log10(std::abs(value))));
  return std::round(value * step) / step;
}

double to_millimetre(double value_m) { return std::round(value_m * 1000) / 1000; }

void round_plan(const study::NightPlan& plan, Json& out) {
  Json lx = Json::array();
  for (const float cell : plan.lx) lx.push_back(cell < 0 ? -1.0 : three_figures(static_cast<double>(cell)));
  out["lx"] = std::move(lx);
  for (Json& contour : out["contours"]) {
    for (Json& line : contour["lines"]) {
      for (Json& point : line) point = Json::array({to_millimetre(point[0]), to_millimetre(point[1])});
    }
  }
}

}  // namespace

Json levels_json(const study::Levels& levels) {
  Json out = result_json(levels);
  if (levels.plan) round_plan(*levels.plan, out["plan"]);
  return out;
}

Json level_sets_json(const study::LevelSets& sets) {
  Json out = Json::array();
  for (const study::LevelSet& set : sets) out.push_back(shape_json(set));
  return out;
}

}  // namespace duskwire::formats
