// SPDX-License-Identifier: Apache-2.0
// Rule checks of how a transformer hangs and what feeds it. Mains work is a licensed electrician's: where it needs
// some, the finding says so and offers no cure.
#include <fmt/format.h>

#include <algorithm>

#include "study/rule_checks.hpp"
#include "study/wording.hpp"

namespace duskwire::study {
namespace {

struct FoundReceptacle {
  const job::Receptacle* plan = nullptr;  // nothing: not known
  std::size_t index = 0;
};

FoundReceptacle receptacle_of(const RuleContext& context, const job::Transformer& transformer) {
  const std::vector<job::Receptacle>& all = context.job.plan.receptacles;
  const auto found = std::find_if(all.begin(), all.end(),
                                  [&](const job::Receptacle& one) { return one.id == transformer.receptacle; });
  if (transformer.receptacle.empty() || found == all.end()) return {};
  return {&*found, static_cast<std::size_t>(found - all.begin())};
}

std::string name_of(const job::Transformer& transformer) { return called(transformer.id, transformer.name); }

// Judges the receptacle of each transformer outdoors by one yes-or-no property.
Findings check_receptacle(const RuleContext& context, const Rule& rule, bool job::Receptacle::*property,
                          const char* fault) {
  Findings findings;
  std::vector<std::string> unknown;
  for (std::size_t t = 0; t < context.job.transformers.size(); ++t) {
    const job::Transformer& transformer = context.job.transformers[t];
    if (transformer.mounting == job::Mounting::indoors) continue;
    const FoundReceptacle receptacle = receptacle_of(context, transformer);
    if (!receptacle.plan) {
      unknown.push_back(transformer.id);
    } else if (!(receptacle.plan->*property)) {
      findings.push_back(finding_of(context, rule, place_of("transformers", t, transformer.id),
                                    fmt::format("Receptacle {} that feeds transformer {} {}. That is work for a "
                                                "licensed electrician.",
                                                receptacle.plan->id, name_of(transformer), fault)));
    }
  }
  if (!unknown.empty()) {
    findings.push_back(
        not_judged(context, rule, "/transformers",
                   fmt::format("The supply of {} could not be judged: no receptacle of the plan is named for {}.",
                               counted(unknown.size(), "transformer"), listed(unknown))));
  }
  return findings;
}

// Estimate of what a transformer takes from the mains at worst.
double input_va(const TransformerReport& report) {
  return report.worst_load_va + report.copper_loss_w + report.core_loss_w;
}

struct CircuitLoad {
  double va = 0;
  std::vector<std::string> transformers;
};

// By index of the receptacle.
std::map<std::size_t, CircuitLoad> circuit_loads(const RuleContext& context) {
  std::map<std::size_t, CircuitLoad> loads;
  for (const job::Transformer& transformer : context.job.transformers) {
    const FoundReceptacle receptacle = receptacle_of(context, transformer);
    if (!receptacle.plan) continue;
    CircuitLoad& load = loads[receptacle.index];
    load.transformers.push_back(transformer.id);
    for (const TransformerReport& report : context.report.transformers) {
      if (report.id == transformer.id) load.va += input_va(report);
    }
  }
  return loads;
}

Place place_of_receptacle(std::size_t index, const job::Receptacle& receptacle) {
  return {receptacle.id, fmt::format("/plan/receptacles/{}", index)};
}

}  // namespace

Findings check_transformer_height(const RuleContext& context, const Rule& rule) {
  const double least_m = value(rule, "height_m");
  Findings findings;
  for (std::size_t t = 0; t < context.job.transformers.size(); ++t) {
    const job::Transformer& transformer = context.job.transformers[t];
    const double height_m = transformer.mounting_height_m;
    if (transformer.mounting == job::Mounting::indoors || !exceeds(least_m, height_m)) continue;
    const WordedPair heights = worded_apart(height_m, least_m, depth_unit(context.units()));
    Finding finding = finding_of(
        context, rule, place_of("transformers", t, transformer.id), {height_m, least_m, "m"},
        fmt::format("Transformer {} hangs {} over grade; {} or more keeps it out of splash, snow and leaves.",
                    name_of(transformer), heights.measured, heights.limit));
    finding.cures.push_back({fmt::format("Hang it with its lower edge {} over grade.", heights.limit),
                             {change(job::ChangeKind::set_mounting_height, transformer.id, least_m)}});
    findings.push_back(std::move(finding));
  }
  return findings;
}

Findings check_transformer_listing(const RuleContext& context, const Rule& rule) {
  Findings findings;
  for (std::size_t t = 0; t < context.job.transformers.size(); ++t) {
    const job::Transformer& transformer = context.job.transformers[t];
    const job::TransformerItem* item = job::find_transformer(context.job.catalogue, transformer.item);
    if (!item || item->outdoor_listed || transformer.mounting == job::Mounting::indoors) continue;
    findings.push_back(finding_of(context, rule, place_of("transformers", t, transformer.id),
                                  fmt::format("Transformer {} hangs outdoors, but '{}' is not listed for it.",
                                              name_of(transformer), item->title)));
  }
  return findings;
}

Findings check_receptacle_gfci(const RuleContext& context, const Rule& rule) {
  return check_receptacle(context, rule, &job::Receptacle::gfci, "has no GFCI (residual-current) protection");
}

Findings check_receptacle_cover(const RuleContext& context, const Rule& rule) {
  return check_receptacle(context, rule, &job::Receptacle::in_use_cover,
                          "has no in-use cover, one that closes over the plug");
}

Findings check_extension_cord(const RuleContext& context, const Rule& rule) {
  Findings findings;
  for (std::size_t t = 0; t < context.job.transformers.size(); ++t) {
    const job::Transformer& transformer = context.job.transformers[t];
    if (!transformer.extension_cord) continue;
    Finding finding = finding_of(context, rule, place_of("transformers", t, transformer.id),
                                 fmt::format("Transformer {} is fed through an extension cord.", name_of(transformer)));
    finding.cures.push_back(
        {"Plug it straight into its receptacle: move the transformer, or have a licensed "
         "electrician add a receptacle within reach of its own cord.",
         {change(job::ChangeKind::set_extension_cord, transformer.id, 0.0)}});
    findings.push_back(std::move(finding));
  }
  return findings;
}

Findings check_branch_circuit(const RuleContext& context, const Rule& rule) {
  const double limit_a = value(rule, "limit_a");
  Findings findings;
  for (const auto& [index, load] : circuit_loads(context)) {
    const job::Receptacle& receptacle = context.job.plan.receptacles[index];
    if (!receptacle.circuit_a || !exceeds(*receptacle.circuit_a, limit_a)) continue;
    const WordedPair amps = worded_apart(*receptacle.circuit_a, limit_a, ampere_unit);
    findings.push_back(finding_of(context, rule, place_of_receptacle(index, receptacle),
                                  {*receptacle.circuit_a, limit_a, "A"},
                                  fmt::format("Receptacle {} is on a circuit of {}; {} is the most for {}. That is "
                                              "work for a licensed electrician.",
                                              receptacle.id, amps.measured, amps.limit, listed(load.transformers))));
  }
  return findings;
}

Findings check_branch_load(const RuleContext& context, const Rule& rule) {
  const double share_pct = value(rule, "share_pct");
  Findings findings;
  std::vector<std::string> unknown;
  for (const auto& [index, load] : circuit_loads(context)) {
    const job::Receptacle& receptacle = context.job.plan.receptacles[index];
    if (!receptacle.circuit_a || context.job.site.mains_v <= 0) {
      unknown.push_back(receptacle.id);
      continue;
    }
    const double load_a = load.va / context.job.site.mains_v;
    const double limit_a = *receptacle.circuit_a * share_pct / 100;
    if (!exceeds(load_a, limit_a)) continue;
    const WordedPair amps = worded_apart(load_a, limit_a, ampere_unit);
    findings.push_back(finding_of(
        context, rule, place_of_receptacle(index, receptacle), {load_a, limit_a, "A"},
        fmt::format("{} take about {} from the circuit of receptacle {}; {} of its {} is the most, and whatever else "
                    "hangs on it comes on top.",
                    listed(load.transformers), amps.measured, receptacle.id, amps.limit,
                    worded(*receptacle.circuit_a, ampere_unit))));
  }
  if (!unknown.empty()) {
    findings.push_back(
        not_judged(context, rule, "/plan/receptacles",
                   fmt::format("The load on the supply circuit could not be judged: the rating of {} is not given.",
                               listed(unknown))));
  }
  return findings;
}

}  // namespace duskwire::study
