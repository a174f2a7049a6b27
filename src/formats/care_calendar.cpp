// SPDX-License-Identifier: Apache-2.0
#include "formats/care_calendar.hpp"

namespace duskwire::formats {

Calendar care_calendar(const job::Job& job, const std::vector<study::CareDate>& dates, const almanac::Zone& zone,
                       std::int64_t stamp_utc_s) {
  Calendar calendar;
  calendar.name = "Garden lighting: " + job.title;
  calendar.zone = zone;
  calendar.stamp_utc_s = stamp_utc_s;
  for (const study::CareDate& date : dates) {
    CalendarEvent event;
    event.uid = date.id + "." + job.id + "@duskwire";
    event.summary = date.title + " (garden lighting)";
    event.description = date.text;
    event.location = job.site.address;
    event.whole_day = !date.start_utc_s.has_value();
    event.date = date.date;
    event.start_utc_s = date.start_utc_s.value_or(0);
    calendar.events.push_back(std::move(event));
  }
  return calendar;
}

}  // namespace duskwire::formats
