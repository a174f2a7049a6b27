// SPDX-License-Identifier: Apache-2.0
#include "zones/zone_table.hpp"

#include <date/tz.h>
#include <fmt/format.h>

#include <exception>

namespace duskwire::zones {
namespace {

constexpr int first_known_year = 1970;

date::sys_seconds start_of(int year) {
  return std::chrono::time_point_cast<std::chrono::seconds>(
      date::sys_days{date::year_month_day{date::year{year}, date::month{1}, date::day{1}}});
}

}  // namespace

Result<almanac::Zone> zone_of(const std::string& name, int first_year, int last_year) {
  if (first_year > last_year || first_year < first_known_year || last_year > last_known_year) {
    return Error{ErrorCode::unsupported,
                 fmt::format("Clock changes are known from {} to {}, and {} was asked for. Take a year within.",
                             first_known_year, last_known_year,
                             first_year == last_year ? fmt::format("{}", first_year)
                                                     : fmt::format("{} to {}", first_year, last_year))};
  }
  const date::time_zone* table = nullptr;
  try {
    table = date::locate_zone(name);
  } catch (const std::exception&) {
    return Error{ErrorCode::not_found,
                 fmt::format("This computer's table has no time zone \"{}\". Give the site a name such as "
                             "America/Chicago or Europe/Paris.",
                             name)};
  }
  const date::sys_seconds end = start_of(last_year + 1) + date::days{7};
  almanac::Zone zone;
  zone.name = name;
  for (date::sys_seconds moment = start_of(first_year) - date::days{7}; moment < end;) {
    const date::sys_info info = table->get_info(moment);
    zone.changes.push_back({(zone.changes.empty() ? moment : info.begin).time_since_epoch().count(),
                            static_cast<std::int32_t>(info.offset.count()), info.abbrev});
    if (info.end <= moment) break;
    moment = info.end;
  }
  return zone;
}

}  // namespace duskwire::zones
