// SPDX-License-Identifier: Apache-2.0
#include "study/rules.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>

#include "study/rule_checks.hpp"

namespace duskwire::study {
namespace {

const RuleCheck* find_check(const Rule& rule) {
  const std::vector<RuleCheck>& checks = rule_checks();
  const auto found =
      std::find_if(checks.begin(), checks.end(), [&](const RuleCheck& check) { return check.name == rule.check; });
  return found == checks.end() ? nullptr : &*found;
}

// Why the rule cannot be judged; empty where it can.
std::string flaw_of(const Rule& rule) {
  const RuleCheck* check = find_check(rule);
  if (!check) return fmt::format("it asks for a check called '{}', which this version does not know", rule.check);
  for (const std::string& name : check->values) {
    if (!rule.values.contains(name)) return fmt::format("it lacks the value '{}'", name);
  }
  for (const std::string& name : check->tables) {
    if (!rule.tables.contains(name)) return fmt::format("it lacks the table '{}'", name);
  }
  return "";
}

Finding flaw_note(const Ruleset& ruleset, const FlawedRule& flawed) {
  Finding finding;
  finding.id = ruleset.id + "/" + flawed.rule;
  finding.severity = Severity::note;
  finding.message =
      fmt::format("Rule '{}' of ruleset '{}' was not judged: {}.", flawed.rule, ruleset.id, flawed.reason);
  return finding;
}

bool same_note(const Finding& p, const Finding& q) {
  return p.severity == Severity::note && q.severity == Severity::note && p.message == q.message;
}

// Several rules may drive one check; what it could not see is said once.
void append(Findings& all, Findings more) {
  for (Finding& finding : more) {
    const bool told = std::any_of(all.begin(), all.end(), [&](const Finding& old) { return same_note(old, finding); });
    if (!told) all.push_back(std::move(finding));
  }
}

}  // namespace

bool is_in_force(const Rule& rule) { return rule.alternative_to.empty(); }

std::vector<FlawedRule> flawed_rules(const Ruleset& ruleset) {
  std::vector<FlawedRule> flawed;
  for (const Rule& rule : ruleset.rules) {
    std::string reason = flaw_of(rule);
    if (!reason.empty()) flawed.push_back({rule.id, std::move(reason)});
  }
  return flawed;
}

Findings judge(const job::Job& job, const Ruleset& ruleset, const Report& report, const job::Catalogue& stock) {
  const RuleContext context(job, ruleset, report, stock);
  Findings findings;
  for (const Rule& rule : ruleset.rules) {
    if (!is_in_force(rule)) continue;
    const std::string flaw = flaw_of(rule);
    if (flaw.empty()) {
      append(findings, find_check(rule)->judge(context, rule));
    } else {
      findings.push_back(flaw_note(ruleset, {rule.id, flaw}));
    }
  }
  return findings;
}

}  // namespace duskwire::study
