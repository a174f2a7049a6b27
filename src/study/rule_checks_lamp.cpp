// SPDX-License-Identifier: Apache-2.0
// Rule checks of lamps: volts inside the window, drop on the way, halogen and LED apart.
#include <fmt/format.h>

#include <algorithm>

#include "study/rule_checks.hpp"
#include "study/wording.hpp"

namespace duskwire::study {
namespace {

std::string in_corner(const std::string& corner) { return corner.empty() ? "" : fmt::format(" ({})", corner); }

bool is_led(job::LampKind kind) {
  return kind == job::LampKind::regulated_led || kind == job::LampKind::constant_current_led;
}

struct FarthestDrop {
  double drop_pct = 0;
  const LampReport* lamp = nullptr;
  std::size_t lamps_beyond = 0;
};

FarthestDrop farthest_drop(const Report& report, const OutputReport& output, double limit_pct) {
  FarthestDrop farthest;
  for (const LampReport& lamp : report.lamps) {
    if (lamp.output != output.id) continue;
    const double drop_pct = 100 * (output.terminal_v - lamp.nominal_v) / output.tap_v;
    if (exceeds(drop_pct, limit_pct)) ++farthest.lamps_beyond;
    if (!farthest.lamp || drop_pct > farthest.drop_pct) {
      farthest.drop_pct = drop_pct;
      farthest.lamp = &lamp;
    }
  }
  return farthest;
}

}  // namespace

Findings check_lamp_window(const RuleContext& context, const Rule& rule) {
  Findings findings;
  for (std::size_t l = 0; l < context.job.luminaires.size(); ++l) {
    const job::Luminaire& luminaire = context.job.luminaires[l];
    const auto found = context.lamp_reports.find(luminaire.id);
    if (found == context.lamp_reports.end() || found->second->output.empty()) continue;
    const LampReport& lamp = *found->second;
    const std::string name = called(luminaire.id, luminaire.name);
    const Place place = place_of("luminaires", l, luminaire.id);
    if (exceeds(lamp.window_min_v, lamp.worst_low_v)) {
      const WordedPair volts = worded_apart(lamp.worst_low_v, lamp.window_min_v, volt_unit);
      findings.push_back(finding_of(context, rule, place, {lamp.worst_low_v, lamp.window_min_v, "V"},
                                    fmt::format("Lamp {} falls to {}{}; it wants {} or more.", name, volts.measured,
                                                in_corner(lamp.worst_low_corner), volts.limit)));
    }
    if (lamp.window_max_v > 0 && exceeds(lamp.worst_high_v, lamp.window_max_v)) {
      const WordedPair volts = worded_apart(lamp.worst_high_v, lamp.window_max_v, volt_unit);
      findings.push_back(finding_of(context, rule, place, {lamp.worst_high_v, lamp.window_max_v, "V"},
                                    fmt::format("Lamp {} rises to {}{}; it stands {} at most.", name, volts.measured,
                                                in_corner(lamp.worst_high_corner), volts.limit)));
    }
  }
  return findings;
}

Findings check_voltage_drop(const RuleContext& context, const Rule& rule) {
  const double limit_pct = value(rule, "drop_pct");
  Findings findings;
  for (const OutputReport& output : context.report.outputs) {
    const OutputPlace* place = context.output(output.id);
    if (!place || output.tap_v <= 0) continue;
    const FarthestDrop farthest = farthest_drop(context.report, output, limit_pct);
    if (farthest.lamps_beyond == 0) continue;
    const WordedPair percents = worded_apart(farthest.drop_pct, limit_pct, percent_unit);
    const std::string others = farthest.lamps_beyond == 1 ? ""
                                                          : fmt::format(", and {} in all are beyond it",
                                                                        counted(farthest.lamps_beyond, "lamp"));
    findings.push_back(finding_of(
        context, rule, {output.id, place->pointer}, {farthest.drop_pct, limit_pct, "%"},
        fmt::format("From output {} to lamp {} {} of the {} tap is lost; the limit is {}{}.", output.id,
                    farthest.lamp->id, percents.measured, worded(output.tap_v, volt_unit), percents.limit, others)));
  }
  return findings;
}

Findings check_mixed_lamps(const RuleContext& context, const Rule& rule) {
  std::map<std::string, std::vector<std::string>> leds;
  std::map<std::string, std::vector<std::string>> filaments;
  for (const job::Luminaire& luminaire : context.job.luminaires) {
    const auto report = context.lamp_reports.find(luminaire.id);
    const job::LuminaireItem* item = job::find_luminaire(context.job.catalogue, luminaire.item);
    if (!item || report == context.lamp_reports.end() || report->second->output.empty()) continue;
    if (is_led(item->lamp)) leds[report->second->output].push_back(luminaire.id);
    if (item->lamp == job::LampKind::filament) filaments[report->second->output].push_back(luminaire.id);
  }
  Findings findings;
  for (const OutputPlace* place : context.outputs_in_order()) {
    const std::string& id = place->output->id;
    if (!leds.contains(id) || !filaments.contains(id)) continue;
    findings.push_back(
        finding_of(context, rule, {id, place->pointer},
                   fmt::format("Output {} feeds halogen ({}) and LED ({}) lamps together; give each kind "
                               "an output of its own, or change the halogen lamps for LED and check the "
                               "tap again.",
                               id, listed(filaments[id]), listed(leds[id]))));
  }
  return findings;
}

}  // namespace duskwire::study
