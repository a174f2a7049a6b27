// SPDX-License-Identifier: Apache-2.0
// A job with only some of its lights: what fed the others alone is gone too, and nothing is wired anew.
#pragma once

#include <string>
#include <unordered_set>

#include "job/job.hpp"

namespace duskwire::estimate {

// Luminaires whose ids are not in `kept` go, and then, again and again, cables, joints, outputs and transformers that
// served only what has gone. Where cables pass on at a luminaire that has gone, a joint of its id takes its place.
[[nodiscard]] job::Job with_luminaires(job::Job job, const std::unordered_set<std::string>& kept);

}  // namespace duskwire::estimate
