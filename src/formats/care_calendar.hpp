// SPDX-License-Identifier: Apache-2.0
// The dates of a job as a calendar to hand over.
#pragma once

#include <vector>

#include "formats/calendar.hpp"
#include "study/care_dates.hpp"

namespace duskwire::formats {

[[nodiscard]] Calendar care_calendar(const job::Job& job, const std::vector<study::CareDate>& dates,
                                     const almanac::Zone& zone, std::int64_t stamp_utc_s);

}  // namespace duskwire::formats
