// SPDX-License-Identifier: Apache-2.0
#include "almanac/zone.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <cstdlib>

namespace duskwire::almanac {
namespace {

std::int64_t floor_day(std::int64_t local_s) {
  return (local_s >= 0 ? local_s : local_s - (seconds_per_day - 1)) / seconds_per_day;
}

}  // namespace

Zone utc_zone() { return {"UTC", {{0, 0, "UTC"}}}; }

const OffsetChange& in_force(const Zone& zone, std::int64_t utc_s) {
  const auto later = std::upper_bound(zone.changes.begin(), zone.changes.end(), utc_s,
                                      [](std::int64_t moment_s, const OffsetChange& c) { return moment_s < c.from_s; });
  return later == zone.changes.begin() ? zone.changes.front() : *(later - 1);
}

LocalTime local_time(const Zone& zone, std::int64_t utc_s) {
  const OffsetChange& now = in_force(zone, utc_s);
  const std::int64_t local_s = utc_s + now.offset_s;
  const std::int64_t day = floor_day(local_s);
  return {date_of(day), static_cast<std::int32_t>(local_s - day * seconds_per_day), now.offset_s, now.abbreviation};
}

ClockMoment moment_of(const Zone& zone, const Date& date, std::int32_t second_of_day) {
  const std::int64_t local_s = day_number(date) * seconds_per_day + second_of_day;
  const auto& changes = zone.changes;
  std::int64_t first_s = 0;
  int times = 0;
  for (std::size_t i = 0; i < changes.size(); ++i) {
    const std::int64_t candidate_s = local_s - changes[i].offset_s;
    const bool begun = i == 0 || candidate_s >= changes[i].from_s;
    const bool over = i + 1 < changes.size() && candidate_s >= changes[i + 1].from_s;
    if (!begun || over) continue;
    if (times == 0) first_s = candidate_s;
    ++times;
  }
  if (times > 0) return {first_s, times > 1 ? ClockCase::repeated : ClockCase::once};
  // In a gap: after change i by the offset before it, yet before it by its own.
  for (std::size_t i = 1; i < changes.size(); ++i) {
    if (local_s - changes[i - 1].offset_s >= changes[i].from_s && local_s - changes[i].offset_s < changes[i].from_s) {
      return {local_s - changes[i - 1].offset_s, ClockCase::skipped};
    }
  }
  return {local_s - changes.back().offset_s, ClockCase::once};
}

std::vector<ClockChange> clock_changes(const Zone& zone, int year) {
  std::vector<ClockChange> found;
  for (std::size_t i = 1; i < zone.changes.size(); ++i) {
    const OffsetChange& change = zone.changes[i];
    const std::int32_t by_s = change.offset_s - zone.changes[i - 1].offset_s;
    const Date date = local_time(zone, change.from_s).date;
    if (by_s != 0 && static_cast<int>(date.year()) == year) {
      found.push_back({date, change.from_s, by_s, change.abbreviation});
    }
  }
  return found;
}

std::string local_text(const Zone& zone, std::int64_t utc_s) {
  const LocalTime local = local_time(zone, utc_s);
  const int offset_min = std::abs(local.offset_s) / 60;
  return fmt::format("{}T{:02}:{:02}:{:02}{}{:02}:{:02}", date_text(local.date), local.second_of_day / 3600,
                     local.second_of_day / 60 % 60, local.second_of_day % 60, local.offset_s < 0 ? '-' : '+',
                     offset_min / 60, offset_min % 60);
}

std::string clock_text(const Zone& zone, std::int64_t utc_s) {
  const LocalTime local = local_time(zone, utc_s + 30);
  return fmt::format("{:02}:{:02}", local.second_of_day / 3600, local.second_of_day / 60 % 60);
}

}  // namespace duskwire::almanac
