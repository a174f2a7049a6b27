// SPDX-License-Identifier: Apache-2.0
// A job to start from: lamps as they were listed, with transformers, runs, joints and cables chosen simply, so that a
// check can run on it at once. A beginning to be changed by hand, not a plan.
#pragma once

#include <string>
#include <vector>

#include "base/result.hpp"
#include "job/job.hpp"
#include "study/rules.hpp"

namespace duskwire::study {

// Positions are metres from the transformer (east, north); lamps without one are put in a row. Lamps of one zone share
// a run. `item` names an article of the stock.
struct StarterRequest {
  std::string title;
  std::string created;  // ISO 8601 date, may be empty
  job::Site site;
  std::vector<job::Luminaire> lamps;
};

// Errors: not_found for an item that the stock lacks, unsupported where more is asked than its largest transformer
// feeds from one place.
[[nodiscard]] Result<job::Job> start_job(const StarterRequest& request, const Ruleset& ruleset,
                                         const job::Catalogue& stock);

}  // namespace duskwire::study
