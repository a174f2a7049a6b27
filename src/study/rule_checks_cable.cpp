// SPDX-License-Identifier: Apache-2.0
// Rule checks of cables: amperes by size, protection by size, least size, made for the ground.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "study/ground.hpp"
#include "study/rule_checks.hpp"
#include "study/wording.hpp"

namespace duskwire::study {
namespace {

// Key of a size in the tables of rules: "12awg", "2.5mm2".
std::string size_key(const job::CableItem& item) {
  return item.gauge_awg ? fmt::format("{:g}awg", *item.gauge_awg) : fmt::format("{:g}mm2", item.area_mm2);
}

// By the rule's table, else what the item itself says; 0: not known.
double allowed_a(const std::map<std::string, double>& by_size, const job::CableItem& item) {
  const auto found = by_size.find(size_key(item));
  return found == by_size.end() ? item.ampacity_a : found->second;
}

bool is_soil(job::GroundKind kind) {
  using job::GroundKind;
  constexpr std::array soil = {GroundKind::bed,   GroundKind::lawn,   GroundKind::gravel,   GroundKind::paving,
                               GroundKind::drive, GroundKind::street, GroundKind::root_zone};
  return std::find(soil.begin(), soil.end(), kind) != soil.end();
}

bool lies_in_soil(const RuleContext& context, const job::Cable& cable) {
  if (cable.depth_m) return *cable.depth_m > 0;
  if (cable.ground && is_soil(*cable.ground)) return true;
  const GroundAlong along = ground_along(context.ground, cable.path);
  return std::any_of(along.length_m.begin(), along.length_m.end(), [](const auto& one) { return is_soil(one.first); });
}

// The cheapest of the stock that is made for the ground and no thinner.
const job::CableItem* burial_twin(const job::Catalogue& stock, const job::CableItem& item) {
  constexpr double rounding = 0.995;
  const job::CableItem* best = nullptr;
  for (const job::CableItem& other : stock.cables) {
    if (!other.direct_burial || other.area_mm2 < item.area_mm2 * rounding) continue;
    if (other.ohm_per_m_20c > item.ohm_per_m_20c / rounding) continue;
    if (!best || other.price_minor_per_m < best->price_minor_per_m) best = &other;
  }
  return best;
}

// Cables of one output that its protection does not protect.
struct ThinCables {
  std::vector<std::string> ids;
  double allowed_a = 0;
  const job::CableItem* thinnest = nullptr;
};

ThinCables thin_cables(const RuleContext& context, const Rule& rule, const OutputPlace& place, double device_a) {
  ThinCables thin;
  for (const job::Cable& cable : context.job.cables) {
    const auto report = context.cable_reports.find(cable.id);
    if (report == context.cable_reports.end() || report->second->output != place.output->id) continue;
    const job::CableItem* item = job::find_cable(context.job.catalogue, cable.item);
    const double limit_a = item ? allowed_a(table(rule, "limit_a"), *item) : 0;
    if (limit_a <= 0 || !exceeds(device_a, limit_a)) continue;
    thin.ids.push_back(cable.id);
    if (thin.thinnest && limit_a >= thin.allowed_a) continue;
    thin.thinnest = item;
    thin.allowed_a = limit_a;
  }
  return thin;
}

double worst_current_a(const RuleContext& context, const std::string& output_id) {
  for (const OutputReport& report : context.report.outputs) {
    if (report.id == output_id) return report.worst_current_a;
  }
  return 0;
}

}  // namespace

Findings check_ampacity(const RuleContext& context, const Rule& rule) {
  Findings findings;
  for (std::size_t c = 0; c < context.job.cables.size(); ++c) {
    const job::Cable& cable = context.job.cables[c];
    const job::CableItem* item = job::find_cable(context.job.catalogue, cable.item);
    const auto report = context.cable_reports.find(cable.id);
    if (!item || report == context.cable_reports.end()) continue;
    const double limit_a = allowed_a(table(rule, "ampacity_a"), *item) * value(rule, "share_pct") / 100;
    const double current_a = report->second->worst_current_a;
    if (limit_a <= 0 || !exceeds(current_a, limit_a)) continue;
    const WordedPair amps = worded_apart(current_a, limit_a, ampere_unit);
    findings.push_back(finding_of(context, rule, place_of("cables", c, cable.id), {current_a, limit_a, "A"},
                                  fmt::format("Cable {} carries up to {}; {} may carry {}.", cable.id, amps.measured,
                                              conductor_words(*item, context.units()), amps.limit)));
  }
  return findings;
}

Findings check_small_wire_protection(const RuleContext& context, const Rule& rule) {
  Findings findings;
  for (const OutputPlace* place : context.outputs_in_order()) {
    const double device_a = device_limit_a(*place).value_or(0);
    const ThinCables thin = thin_cables(context, rule, *place, device_a);
    if (!thin.thinnest) continue;
    const WordedPair amps = worded_apart(device_a, thin.allowed_a, ampere_unit);
    const std::string& id = place->output->id;
    Finding finding =
        finding_of(context, rule, {id, place->pointer}, {device_a, thin.allowed_a, "A"},
                   fmt::format("Output {} is protected at {}, but {} is protected by {} at most: cable{} {}.", id,
                               amps.measured, conductor_words(*thin.thinnest, context.units()), amps.limit,
                               thin.ids.size() == 1 ? "" : "s", listed(thin.ids)));
    const double load_a = worst_current_a(context, id);
    if (!exceeds(load_a, thin.allowed_a)) {
      finding.cures.push_back({fmt::format("Fit a fuse or breaker of {} on output {}: it carries {} at worst.",
                                           amps.limit, id, worded(load_a, ampere_unit)),
                               {change(job::ChangeKind::set_output_limit, id, thin.allowed_a)}});
    }
    findings.push_back(std::move(finding));
  }
  return findings;
}

Findings check_conductor_size(const RuleContext& context, const Rule& rule) {
  constexpr double rounding = 1e-3;  // tables round areas
  Findings findings;
  for (std::size_t c = 0; c < context.job.cables.size(); ++c) {
    const job::Cable& cable = context.job.cables[c];
    const job::CableItem* item = job::find_cable(context.job.catalogue, cable.item);
    if (!item || item->area_mm2 <= 0) continue;
    const std::optional<double> route_m = estimate::route_length_m(cable);
    const bool is_short = route_m && !exceeds(*route_m, value(rule, "short_length_m"));
    const double least_mm2 = value(rule, is_short ? "short_area_mm2" : "area_mm2");
    if (item->area_mm2 >= least_mm2 * (1 - rounding)) continue;
    findings.push_back(
        finding_of(context, rule, place_of("cables", c, cable.id), {item->area_mm2, least_mm2, "mm2"},
                   fmt::format("Cable {} has conductors of {}; at least {} is asked for.", cable.id,
                               conductor_words(*item, context.units()), conductor_words(least_mm2, context.units()))));
  }
  return findings;
}

Findings check_cable_burial(const RuleContext& context, const Rule& rule) {
  Findings findings;
  for (std::size_t c = 0; c < context.job.cables.size(); ++c) {
    const job::Cable& cable = context.job.cables[c];
    const job::CableItem* item = job::find_cable(context.job.catalogue, cable.item);
    if (!item || item->direct_burial || !cable.sleeve.empty() || !lies_in_soil(context, cable)) continue;
    Finding finding =
        finding_of(context, rule, place_of("cables", c, cable.id),
                   fmt::format("Cable {} lies in the ground, but '{}' is not made for it.", cable.id, item->title));
    if (const job::CableItem* twin = burial_twin(context.stock, *item)) {
      finding.cures.push_back({fmt::format("Lay '{}' instead.", twin->title),
                               {change(job::ChangeKind::set_cable_item, cable.id, twin->id)}});
    }
    findings.push_back(std::move(finding));
  }
  return findings;
}

}  // namespace duskwire::study
