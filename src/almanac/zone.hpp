// SPDX-License-Identifier: Apache-2.0
// A time zone as a value: when its clocks change and by how much they are ahead of UTC from then on. The caller fills
// it, from the zone table of the computer or of the browser; nothing here reads anything.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "almanac/civil_date.hpp"

namespace duskwire::almanac {

struct OffsetChange {
  std::int64_t from_s = 0;    // seconds of UTC since 1970; of the first one in a list: any time before the second
  std::int32_t offset_s = 0;  // local less UTC
  std::string abbreviation;   // "CDT"
};

struct Zone {
  std::string name;                   // IANA name
  std::vector<OffsetChange> changes;  // never empty, ascending
};

[[nodiscard]] Zone utc_zone();

struct LocalTime {
  Date date;
  std::int32_t second_of_day = 0;
  std::int32_t offset_s = 0;
  std::string abbreviation;
};

[[nodiscard]] const OffsetChange& in_force(const Zone& zone, std::int64_t utc_s);
[[nodiscard]] LocalTime local_time(const Zone& zone, std::int64_t utc_s);

// What a clock time of a date is on a day when clocks change.
enum class ClockCase : std::uint8_t {
  once = 0,
  skipped = 1,   // clocks jump over it
  repeated = 2,  // clocks show it twice
};

struct ClockMoment {
  std::int64_t utc_s = 0;
  ClockCase clock = ClockCase::once;
};

// RFC 5545 section 3.3.5: a time that does not occur is read with the offset in force before the gap (02:30 becomes
// 03:30 on the clock); a time that occurs twice is the first of both.
[[nodiscard]] ClockMoment moment_of(const Zone& zone, const Date& date, std::int32_t second_of_day);

// Days of a year on which the clocks change, with the change that is in force afterwards.
struct ClockChange {
  Date date;
  std::int64_t at_s = 0;
  std::int32_t by_s = 0;  // forward positive
  std::string abbreviation;
};
[[nodiscard]] std::vector<ClockChange> clock_changes(const Zone& zone, int year);

// "2026-03-08T19:13:05-05:00".
[[nodiscard]] std::string local_text(const Zone& zone, std::int64_t utc_s);
// "19:13", to the nearest minute.
[[nodiscard]] std::string clock_text(const Zone& zone, std::int64_t utc_s);

}  // namespace duskwire::almanac
