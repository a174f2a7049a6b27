// SPDX-License-Identifier: Apache-2.0
#include "study/rule_context.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

namespace duskwire::study {

RuleContext::RuleContext(const job::Job& job_in, const Ruleset& ruleset_in, const Report& report_in,
                         const job::Catalogue& stock_in)
    : job(job_in),
      ruleset(ruleset_in),
      report(report_in),
      stock(stock_in),
      ground(job_in.plan),
      ends(job_in),
      joint_wires(estimate::all_joint_wires(job_in)) {
  for (std::size_t t = 0; t < job.transformers.size(); ++t) {
    const job::Transformer& transformer = job.transformers[t];
    const job::TransformerItem* item = job::find_transformer(job.catalogue, transformer.item);
    for (std::size_t o = 0; o < transformer.outputs.size(); ++o) {
      const job::Output& output = transformer.outputs[o];
      outputs.emplace(output.id,
                      OutputPlace{&transformer, &output, item, fmt::format("/transformers/{}/outputs/{}", t, o)});
    }
  }
  for (const LampReport& lamp : report.lamps) lamp_reports.emplace(lamp.id, &lamp);
  for (const CableReport& cable : report.cables) cable_reports.emplace(cable.id, &cable);
}

const OutputPlace* RuleContext::output(std::string_view id) const {
  const auto found = outputs.find(id);
  return found == outputs.end() ? nullptr : &found->second;
}

std::vector<const OutputPlace*> RuleContext::outputs_in_order() const {
  std::vector<const OutputPlace*> places;
  for (const job::Transformer& transformer : job.transformers) {
    for (const job::Output& own : transformer.outputs) places.push_back(output(own.id));
  }
  return places;
}

std::optional<double> device_limit_a(const OutputPlace& place) {
  if (place.output->limit_a) return place.output->limit_a;
  return place.item ? std::optional<double>(place.item->output_limit_a) : std::nullopt;
}

Place place_of(const char* collection, std::size_t index, const std::string& id) {
  return {id, fmt::format("/{}/{}", collection, index)};
}

Finding finding_of(const RuleContext& context, const Rule& rule, Place place, std::string message) {
  Finding finding;
  finding.id = context.ruleset.id + "/" + rule.id;
  finding.severity = rule.severity;
  finding.subject = std::move(place.subject);
  finding.pointer = std::move(place.pointer);
  finding.message = std::move(message);
  finding.provenance = rule.provenance;
  return finding;
}

Finding finding_of(const RuleContext& context, const Rule& rule, Place place, const Measure& measure,
                   std::string message) {
  Finding finding = finding_of(context, rule, std::move(place), std::move(message));
  finding.measured = measure.measured;
  finding.limit = measure.limit;
  finding.unit = measure.unit;
  return finding;
}

Finding not_judged(const RuleContext& context, const Rule& rule, const std::string& pointer, std::string message) {
  Finding finding = finding_of(context, rule, {"", pointer}, std::move(message));
  finding.severity = Severity::note;
  return finding;
}

std::optional<double> optional_value(const Rule& rule, const std::string& name) {
  const auto found = rule.values.find(name);
  return found == rule.values.end() ? std::nullopt : std::optional<double>(found->second);
}

double value(const Rule& rule, const std::string& name) { return rule.values.at(name); }

const std::map<std::string, double>& table(const Rule& rule, const std::string& name) { return rule.tables.at(name); }

bool exceeds(double measured, double limit) {
  constexpr double rounding = 1e-9;
  return measured > limit + rounding * std::max(1.0, std::abs(limit));
}

job::Change change(job::ChangeKind kind, const std::string& target, double number) {
  job::Change change;
  change.kind = kind;
  change.target = target;
  change.number = number;
  return change;
}

job::Change change(job::ChangeKind kind, const std::string& target, const std::string& text) {
  job::Change change;
  change.kind = kind;
  change.target = target;
  change.text = text;
  return change;
}

}  // namespace duskwire::study
