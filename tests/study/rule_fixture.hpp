// SPDX-License-Identifier: Apache-2.0
// A small sound garden with its solved report, and one rule at a time to judge it by: the tests of rule checks bend one
// number of it by a hair.
#pragma once

#include <map>
#include <string>

#include "job/job.hpp"
#include "study/report.hpp"
#include "study/rules.hpp"

namespace duskwire::study::rule_testing {

inline constexpr double hair = 1e-6;

struct Garden {
  job::Job job;
  Report report;
  job::Catalogue stock;

  job::Transformer& transformer() { return job.transformers[0]; }
  job::Output& output() { return job.transformers[0].outputs[0]; }
  job::Cable& cable(std::size_t index) { return job.cables[index]; }
  job::Joint& joint() { return job.joints[0]; }
  job::Luminaire& luminaire(std::size_t index) { return job.luminaires[index]; }
};

// Transformer "T1" with output "A" on the 12 V tap, cable "C1" to joint "J1", where luminaire "F1" hangs on its own
// lead and "C2" goes on to luminaire "F2". A lawn of 20 by 20 m lies under everything.
Garden garden();

using Values = std::map<std::string, double>;
using Tables = std::map<std::string, std::map<std::string, double>>;
Rule rule_of(const std::string& check, const Values& values = {}, const Tables& tables = {});

Findings judge_by(const Garden& garden, const Rule& rule);

// The findings that are no notes.
Findings breaches(const Garden& garden, const Rule& rule);

// Number of findings left after the first cure of the first finding was applied to a copy; fails the test and gives -1
// where there is no cure to apply.
int breaches_after_cure(const Garden& garden, const Rule& rule);

job::Area square(const std::string& id, job::GroundKind kind, double x_m, double y_m, double side_m);

}  // namespace duskwire::study::rule_testing
