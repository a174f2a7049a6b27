// SPDX-License-Identifier: Apache-2.0
// Rule checks of outputs and transformers: volts of the tap, amperes, VA, headroom.
#include <fmt/format.h>

#include <algorithm>

#include "study/rule_checks.hpp"
#include "study/wording.hpp"

namespace duskwire::study {
namespace {

Place place_of(const OutputPlace& place) { return {place.output->id, place.pointer}; }

// True if a rule of the same check with a higher share, so a worse finding, is broken as well: it speaks then.
bool worse_rule_speaks(const RuleContext& context, const Rule& rule, double own_share, double share_reached) {
  const std::vector<Rule>& rules = context.ruleset.rules;
  return std::any_of(rules.begin(), rules.end(), [&](const Rule& other) {
    const std::optional<double> share = optional_value(other, "share_pct");
    return is_in_force(other) && other.check == rule.check && other.severity >= rule.severity && share &&
           exceeds(*share, own_share) && exceeds(share_reached, *share);
  });
}

}  // namespace

Findings check_tap_voltage(const RuleContext& context, const Rule& rule) {
  const double limit_v = value(rule, "limit_v");
  Findings findings;
  for (const OutputPlace* place : context.outputs_in_order()) {
    const double tap_v = place->output->tap_v;
    if (!exceeds(tap_v, limit_v)) continue;
    const WordedPair volts = worded_apart(tap_v, limit_v, volt_unit);
    findings.push_back(
        finding_of(context, rule, place_of(*place), {tap_v, limit_v, "V"},
                   fmt::format("Output {} of {} is on the {} tap; the limit is {}.", place->output->id,
                               called(place->transformer->id, place->transformer->name), volts.measured, volts.limit)));
  }
  return findings;
}

Findings check_output_current(const RuleContext& context, const Rule& rule) {
  const double limit_a = value(rule, "limit_a");
  Findings findings;
  for (const OutputReport& report : context.report.outputs) {
    const OutputPlace* place = context.output(report.id);
    if (!place || !exceeds(report.worst_current_a, limit_a)) continue;
    const WordedPair amps = worded_apart(report.worst_current_a, limit_a, ampere_unit);
    findings.push_back(finding_of(
        context, rule, place_of(*place), {report.worst_current_a, limit_a, "A"},
        fmt::format("Output {} carries up to {}; one output may carry {}.", report.id, amps.measured, amps.limit)));
  }
  return findings;
}

Findings check_output_protection(const RuleContext& context, const Rule& rule) {
  const double limit_a = value(rule, "limit_a");
  Findings findings;
  for (const OutputPlace* place : context.outputs_in_order()) {
    const std::optional<double> device_a = device_limit_a(*place);
    if (!device_a || (*device_a > 0 && !exceeds(*device_a, limit_a))) continue;
    const WordedPair amps = worded_apart(*device_a, limit_a, ampere_unit);
    Finding finding =
        finding_of(context, rule, place_of(*place), {*device_a, limit_a, "A"},
                   *device_a > 0 ? fmt::format("Output {} is protected at {}; the protective device may be {} at most.",
                                               place->output->id, amps.measured, amps.limit)
                                 : fmt::format("Output {} has no protective device; it needs one of {} or less.",
                                               place->output->id, amps.limit));
    finding.cures.push_back({fmt::format("Fit a fuse or breaker of {} on output {}.", amps.limit, place->output->id),
                             {change(job::ChangeKind::set_output_limit, place->output->id, limit_a)}});
    findings.push_back(std::move(finding));
  }
  return findings;
}

Findings check_output_load(const RuleContext& context, const Rule& rule) {
  const double share_pct = optional_value(rule, "share_pct").value_or(context.job.practice.output_load_pct);
  Findings findings;
  for (const OutputReport& report : context.report.outputs) {
    const OutputPlace* place = context.output(report.id);
    const double device_a = place ? device_limit_a(*place).value_or(0) : 0;
    if (device_a <= 0) continue;
    const double limit_a = device_a * share_pct / 100;
    const double reached_pct = 100 * report.worst_current_a / device_a;
    if (!exceeds(report.worst_current_a, limit_a)) continue;
    if (worse_rule_speaks(context, rule, share_pct, reached_pct)) continue;
    const WordedPair amps = worded_apart(report.worst_current_a, limit_a, ampere_unit);
    findings.push_back(
        finding_of(context, rule, place_of(*place), {report.worst_current_a, limit_a, "A"},
                   fmt::format("Output {} carries up to {}, {} of its {} protection; at most {} ({}) is to be used.",
                               report.id, amps.measured, worded(reached_pct, percent_unit),
                               worded(device_a, ampere_unit), amps.limit, worded(share_pct, percent_unit))));
  }
  return findings;
}

Findings check_output_va(const RuleContext& context, const Rule& rule) {
  const double limit_va = value(rule, "limit_va");
  Findings findings;
  for (const OutputReport& report : context.report.outputs) {
    const OutputPlace* place = context.output(report.id);
    const double load_va = report.terminal_v * report.worst_current_a;
    if (!place || !exceeds(load_va, limit_va)) continue;
    const WordedPair va = worded_apart(load_va, limit_va, volt_ampere_unit);
    findings.push_back(finding_of(
        context, rule, place_of(*place), {load_va, limit_va, "VA"},
        fmt::format("Output {} delivers up to {}; one output may deliver {}.", report.id, va.measured, va.limit)));
  }
  return findings;
}

Findings check_transformer_load(const RuleContext& context, const Rule& rule) {
  const double share_pct = optional_value(rule, "share_pct").value_or(context.job.practice.transformer_load_pct);
  Findings findings;
  for (std::size_t t = 0; t < context.job.transformers.size(); ++t) {
    const job::Transformer& transformer = context.job.transformers[t];
    const auto report = std::find_if(context.report.transformers.begin(), context.report.transformers.end(),
                                     [&](const TransformerReport& one) { return one.id == transformer.id; });
    if (report == context.report.transformers.end() || report->rating_va <= 0) continue;
    // Lamps that are starved draw less than they would: their rated VA count as well.
    const double load_va = std::max(report->worst_load_va, report->lamp_va);
    const double limit_va = report->rating_va * share_pct / 100;
    const double reached_pct = 100 * load_va / report->rating_va;
    if (!exceeds(load_va, limit_va) || worse_rule_speaks(context, rule, share_pct, reached_pct)) continue;
    const WordedPair va = worded_apart(load_va, limit_va, volt_ampere_unit);
    findings.push_back(finding_of(
        context, rule, study::place_of("transformers", t, transformer.id), {load_va, limit_va, "VA"},
        fmt::format("Transformer {} is loaded with up to {}, {} of its {}; at most {} ({}) is to be used.",
                    called(transformer.id, transformer.name), va.measured, worded(reached_pct, percent_unit),
                    worded(report->rating_va, volt_ampere_unit), va.limit, worded(share_pct, percent_unit))));
  }
  return findings;
}

}  // namespace duskwire::study
