// SPDX-License-Identifier: Apache-2.0
// What the offer within a job says of the cost of time. The job keeps the offer as text; only this looks into it.
#pragma once

#include <cstdint>
#include <optional>

#include "job/job.hpp"

namespace duskwire::formats {

// An hour's cost to the shop; empty where the job has no offer or the offer does not say.
[[nodiscard]] std::optional<std::int64_t> offered_labour_minor_per_h(const job::Job& job);

}  // namespace duskwire::formats
