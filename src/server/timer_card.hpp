// SPDX-License-Identifier: Apache-2.0
// When the lights go on and off, for the owner's pack: the year of the paper's date, by the clock of the site.
#pragma once

#include <optional>
#include <string>

#include "job/job.hpp"
#include "paper/owner_paper.hpp"

namespace duskwire::server {

// Nothing where the job has no programme, no place or no time zone, or the date is beyond the tables.
[[nodiscard]] std::optional<paper::TimerCard> timer_card(const job::Job& job, const job::Catalogue& stock,
                                                         const std::string& date);

// Visits, care and warranties as iCalendar for four years from the date on; empty where the zone is not known.
[[nodiscard]] std::string care_calendar_of(const job::Job& job, const std::string& date, std::int64_t stamp_utc_s);

}  // namespace duskwire::server
