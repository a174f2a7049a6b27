// SPDX-License-Identifier: Apache-2.0
// The verb `check`: a job in, the report out. `advise` adds tap, transformer and protection advice.
#pragma once

#include "job/job.hpp"
#include "study/report.hpp"
#include "study/rules.hpp"

namespace duskwire::study {

struct CheckOptions {
  bool cures = true;  // computing cures costs some tens of solves per finding
};

// Never fails: a job that cannot be solved has findings that say why. `stock` supplies items for cures.
[[nodiscard]] Report check(const job::Job& job, const Ruleset& ruleset, const job::Catalogue& stock,
                           const CheckOptions& options = {});

}  // namespace duskwire::study
