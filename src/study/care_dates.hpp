// SPDX-License-Identifier: Apache-2.0
// The dates that a job gives to its owner and its shop: visits, care, warranties that end, an offer that lapses, clocks
// to set. Dates of care are common practice, no source; nothing here is a promise of the shop.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "almanac/zone.hpp"
#include "job/job.hpp"

namespace duskwire::study {

enum class CareKind : std::uint8_t { visit = 0, care = 1, warranty_end = 2, offer_end = 3, set_clock = 4 };

struct CareDate {
  std::string id;  // the same each time, within the job: "care-2027-spring"
  CareKind kind = CareKind::visit;
  almanac::Date date;
  std::optional<std::int64_t> start_utc_s;  // where a visit has a time of day
  std::string title;
  std::string text;
};

// In the order of time. Care, clocks and warranties from `first_year` to `last_year`, visits and the offer of any year.
[[nodiscard]] std::vector<CareDate> care_dates(const job::Job& job, const almanac::Zone& zone, int first_year,
                                               int last_year);

// When the system was handed over: the last visit of that kind, else of commissioning, else of installation.
[[nodiscard]] std::optional<almanac::Date> handed_over(const job::Job& job);

}  // namespace duskwire::study
