// SPDX-License-Identifier: Apache-2.0
// Finding: one thing that a check of a job brought to light: what, where, measured against which limit and why that
// limit, and the computed changes that would cure it.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/problem.hpp"
#include "job/change.hpp"

namespace duskwire::study {

// Where a limit comes from.
struct Provenance {
  std::string clause;   // "NFPA 70 411.5(B)"
  std::string edition;  // "2014"
  std::string status;   // "seen", "from memory", "common practice, no source", "computed"
  std::string note;
};

// A cure that was tried on a copy of the job: `text` says what to do and what it gives.
struct Cure {
  std::string text;
  std::vector<job::Change> changes;
};

struct Finding {
  std::string id;  // stable id of the check: "lamp-window", "us/output-current"
  Severity severity = Severity::error;
  std::string subject;             // id of the object in the job
  std::string pointer;             // JSON pointer of that object in the job document
  std::string message;             // one or two sentences in the user's units
  std::optional<double> measured;  // SI, as is the limit
  std::optional<double> limit;
  std::string unit;
  Provenance provenance;
  std::vector<Cure> cures;  // best first; empty where none was found: the message then says so
};

using Findings = std::vector<Finding>;

}  // namespace duskwire::study
