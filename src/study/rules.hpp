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
  std::map<std::string, double> values;             // "limit_a": 25
  std::map<std::string, std::map<std::string, double>> tables;  // "cover_m": {"lawn": 0.15, "drive": 0.45}
  std::string title;
  Provenance provenance;
  std::string alternative_to;  // id of the rule it disagrees with, where sources differ
};

struct Ruleset {
  std::string id;      // "us", "ca", "iec"
  std::string title;
  std::string notice;  // who decides, in plain words
  std::vector<Rule> rules;
};

struct Report;

// Judges a job by a ruleset. `report` gives the solved currents; its findings are not read.
[[nodiscard]] Findings judge(const job::Job& job, const Ruleset& ruleset, const Report& report,
                             const job::Catalogue& stock);

}  // namespace duskwire::study
