// SPDX-License-Identifier: Apache-2.0
// From numbers by index to the report by the job's own ids. Internal to the room.
#pragma once

#include "study/network_builder.hpp"
#include "study/numbers.hpp"
#include "study/report.hpp"

namespace duskwire::study {

// Everything but the findings.
[[nodiscard]] Report dress(const Built& built, const Numbers& numbers);

}  // namespace duskwire::study
