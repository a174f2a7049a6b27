// SPDX-License-Identifier: Apache-2.0
// Dates of a job as iCalendar (RFC 5545), for the owner's and the shop's calendar: lines folded, texts escaped, each
// event with its UID, the zone with its changes. The moment of writing is handed in.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "almanac/zone.hpp"

namespace duskwire::formats {

struct CalendarEvent {
  std::string uid;  // the same for the same event each time it is written, so that a calendar renews it
  std::string summary;
  std::string description;
  std::string location;
  bool whole_day = true;
  almanac::Date date;              // of a whole day
  std::int64_t start_utc_s = 0;    // else: seconds of UTC since 1970
  std::int32_t duration_min = 60;  // else
};

struct Calendar {
  std::string name;
  almanac::Zone zone;  // whose changes cover the events
  std::int64_t stamp_utc_s = 0;
  std::vector<CalendarEvent> events;
};

[[nodiscard]] std::string calendar_text(const Calendar& calendar);

}  // namespace duskwire::formats
