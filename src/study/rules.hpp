// SPDX-License-Identifier: Apache-2.0
// Rulesets as values: limits of one region with where each comes from. The files are data/rulesets/*.json, read by
// `formats`; this room judges a job by them. The tool never decides: local code and a licensed electrician do.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "job/job.hpp"
#include "study/finding.hpp"

namespace duskwire::study {

// One rule: the check that it drives, its numbers by name (unit suffix in the name), optional tables, provenance.
struct Rule {
  std::string id;     // "output-current"
  std::string check;  // name of the check in rule_checks.cpp that reads it; several rules may drive one check
  Severity severity = Severity::error;
  std::map<std::string, double> values;                         // "limit_a": 25
  std::map<std::string, std::map<std::string, double>> tables;  // "cover_m": {"lawn": 0.15, "drive": 0.45}
  std::string title;
  Provenance provenance;
  // Where sources differ: id of the rule in force that it disagrees with. An alternative is shown, not judged; a
  // ruleset that holds it without this key puts it in force.
  std::string alternative_to;
};

struct Ruleset {
  std::string id;  // "us", "ca", "iec"
  std::string title;
  std::string notice;  // who decides, in plain words
  std::vector<Rule> rules;
};

[[nodiscard]] bool is_in_force(const Rule& rule);

// Rules that cannot be judged: an unknown check, a missing value or table. judge() says so in a note for each.
struct FlawedRule {
  std::string rule;
  std::string reason;
};
[[nodiscard]] std::vector<FlawedRule> flawed_rules(const Ruleset& ruleset);

struct Report;

// Judges a job by a ruleset. `report` gives the solved currents; its findings are not read.
[[nodiscard]] Findings judge(const job::Job& job, const Ruleset& ruleset, const Report& report,
                             const job::Catalogue& stock);

}  // namespace duskwire::study
