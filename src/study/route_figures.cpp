// SPDX-License-Identifier: Apache-2.0
#include "study/route_figures.hpp"

#include <algorithm>
#include <limits>

#include "study/check.hpp"

namespace duskwire::study {
namespace {

// An upper edge of 0 is none: some items only have a lower one.
double room_v(const LampReport& lamp) {
  const double below_v = lamp.worst_low_v - lamp.window_min_v;
  return lamp.window_max_v > 0 ? std::min(below_v, lamp.window_max_v - lamp.worst_high_v) : below_v;
}

void add_volts(const std::vector<LampReport>& lamps, RouteFigures& figures) {
  double lowest_v = std::numeric_limits<double>::infinity();
  double least_room_v = std::numeric_limits<double>::infinity();
  figures.wired = !lamps.empty();
  for (const LampReport& lamp : lamps) {
    if (lamp.output.empty()) {
      figures.wired = false;
      continue;
    }
    if (lamp.worst_low_v < lowest_v) {
      lowest_v = figures.lowest_v = lamp.worst_low_v;
      figures.lowest_lamp = lamp.id;
    }
    if (room_v(lamp) < least_room_v) {
      least_room_v = figures.least_room_v = room_v(lamp);
      figures.least_room_lamp = lamp.id;
    }
  }
}

}  // namespace

RouteFigures figures_of(const job::Job& job, const Ruleset& ruleset, const job::Catalogue& stock,
                        const estimate::InstallRates& rates, const std::vector<std::string>& sleeves_to_lay) {
  return figures_of(job, check(job, ruleset, stock, {.cures = false}), stock, rates, sleeves_to_lay);
}

RouteFigures figures_of(const job::Job& job, const Report& report, const job::Catalogue& stock,
                        const estimate::InstallRates& rates, const std::vector<std::string>& sleeves_to_lay) {
  RouteFigures figures;
  figures.cost = estimate::installed_cost(job, stock, rates, sleeves_to_lay);
  add_volts(report.lamps, figures);
  figures.load_margin = report.margin.load_factor;
  for (const TransformerReport& transformer : report.transformers) {
    figures.load_va += transformer.worst_load_va;
    figures.rating_va += transformer.rating_va;
  }
  figures.transformers = static_cast<std::uint32_t>(job.transformers.size());
  figures.outputs = static_cast<std::uint32_t>(std::count_if(
      report.outputs.begin(), report.outputs.end(), [](const OutputReport& output) { return output.lamp_count > 0; }));
  figures.errors = static_cast<std::uint32_t>(
      std::count_if(report.findings.begin(), report.findings.end(),
                    [](const Finding& finding) { return finding.severity == Severity::error; }));
  figures.sound = report.sound && figures.wired;
  return figures;
}

}  // namespace duskwire::study
