// SPDX-License-Identifier: Apache-2.0
#include "study/check.hpp"

#include <algorithm>
#include <string_view>

#include "study/cures.hpp"
#include "study/finding_text.hpp"
#include "study/number_troubles.hpp"
#include "study/numbers.hpp"
#include "study/report_dress.hpp"

namespace duskwire::study {
namespace {

// A rule of a ruleset that judges what the numbers are judged by anyway: one matter is told once.
struct SharedMatter {
  std::string_view check;  // Rule::check
  TroubleFamily family;
};
constexpr SharedMatter shared_matters[] = {
    {"lamp-window", TroubleFamily::lamp_low},
    {"lamp-window", TroubleFamily::lamp_high},
    {"output-load", TroubleFamily::output_load},
    {"transformer-load", TroubleFamily::transformer_load},
};

const Rule* rule_of(const Ruleset& ruleset, const Finding& finding) {
  const std::string prefix = ruleset.id + "/";
  if (finding.id.compare(0, prefix.size(), prefix) != 0) return nullptr;
  const std::string_view id = std::string_view(finding.id).substr(prefix.size());
  const auto found =
      std::find_if(ruleset.rules.begin(), ruleset.rules.end(), [&](const Rule& rule) { return rule.id == id; });
  return found == ruleset.rules.end() ? nullptr : &*found;
}

bool tells_the_same(const Ruleset& ruleset, const Finding& by_rule, const Trouble& trouble, const Finding& finding) {
  const Rule* rule = rule_of(ruleset, by_rule);
  if (!rule || by_rule.subject != finding.subject) return false;
  return std::any_of(std::begin(shared_matters), std::end(shared_matters), [&](const SharedMatter& matter) {
    return matter.check == rule->check && matter.family == family_of(trouble.kind);
  });
}

// The finding of the numbers stays, since it knows the corner and the cure; the rule gives its clause and its weight.
void take_over_rule(const Ruleset& ruleset, const Trouble& trouble, Finding& finding, Findings& by_rules) {
  std::optional<Severity> worst;
  for (const Finding& by_rule : by_rules) {
    if (!tells_the_same(ruleset, by_rule, trouble, finding)) continue;
    if (worst && *worst >= by_rule.severity) continue;
    worst = by_rule.severity;
    finding.provenance = by_rule.provenance;
  }
  if (worst) finding.severity = std::max(finding.severity, *worst);
  std::erase_if(by_rules, [&](const Finding& by_rule) { return tells_the_same(ruleset, by_rule, trouble, finding); });
}

// Lamps behind a dead short are dark because of it: their volts are no finding of their own.
void drop_consequences(const Built& built, const Ruleset& ruleset, Findings& by_rules) {
  std::erase_if(by_rules, [&](const Finding& finding) {
    const Rule* rule = rule_of(ruleset, finding);
    if (!rule || rule->check != "lamp-window") return false;
    const std::uint32_t node = built.node_of(finding.subject);
    return node != none && built.dead_short[node];
  });
}

bool has_cures(TroubleKind kind) {
  return is_electrical(kind) || kind == TroubleKind::tap_not_offered || kind == TroubleKind::too_many_outputs ||
         kind == TroubleKind::lamp_fed_twice;
}

// What cures the worst lamp of an output is then tried first on the others.
std::vector<std::size_t> worst_first(const job::Job& job, const Troubles& troubles) {
  std::vector<double> badness;
  std::vector<std::size_t> order;
  for (const Trouble& trouble : troubles) {
    order.push_back(order.size());
    badness.push_back(mark_of(job, trouble).badness);
  }
  std::stable_sort(order.begin(), order.end(), [&](std::size_t p, std::size_t q) { return badness[p] > badness[q]; });
  return order;
}

}  // namespace

Report check(const job::Job& job, const Ruleset& ruleset, const job::Catalogue& stock, const CheckOptions& options) {
  const Built built = build(job);
  const Numbers numbers = analyse(built);
  Troubles troubles = built.troubles;
  for (Trouble& trouble : number_troubles(built, numbers)) troubles.push_back(std::move(trouble));

  Report report = dress(built, numbers);
  Findings by_rules = judge(job, ruleset, report, stock);
  drop_consequences(built, ruleset, by_rules);
  std::optional<Trials> trials;
  std::optional<CureSearch> search;
  const bool curable =
      std::any_of(troubles.begin(), troubles.end(), [](const Trouble& trouble) { return has_cures(trouble.kind); });
  if (options.cures && curable) {
    trials.emplace(built, numbers, troubles, stock, &ruleset);
    search.emplace(*trials);
  }
  std::vector<std::vector<Cure>> cures(troubles.size());
  for (const std::size_t i : worst_first(job, troubles)) {
    if (search && has_cures(troubles[i].kind)) cures[i] = search->cures_for(troubles[i]);
  }
  for (std::size_t i = 0; i < troubles.size(); ++i) {
    Finding finding = to_finding(built, numbers, troubles[i]);
    take_over_rule(ruleset, troubles[i], finding, by_rules);
    finding.cures = std::move(cures[i]);
    const bool in_vain = search && has_cures(troubles[i].kind) && finding.cures.empty();
    if (in_vain) finding.message += " Nothing that was tried cures it.";
    report.findings.push_back(std::move(finding));
  }
  std::move(by_rules.begin(), by_rules.end(), std::back_inserter(report.findings));
  std::stable_sort(report.findings.begin(), report.findings.end(),
                   [](const Finding& p, const Finding& q) { return p.severity > q.severity; });
  report.sound = std::none_of(report.findings.begin(), report.findings.end(),
                              [](const Finding& finding) { return finding.severity == Severity::error; });
  return report;
}

}  // namespace duskwire::study
