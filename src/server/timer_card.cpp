// SPDX-License-Identifier: Apache-2.0
#include "server/timer_card.hpp"

#include <array>
#include <cstdlib>

#include "formats/calendar.hpp"
#include "formats/care_calendar.hpp"
#include "study/care_dates.hpp"
#include "study/times.hpp"
#include "zones/zone_table.hpp"

namespace duskwire::server {
namespace {

constexpr int calendar_years = 3;

int year_of(const std::string& date) { return date.size() < 4 ? 0 : std::atoi(date.substr(0, 4).c_str()); }

// "19:13" of "2026-03-08T19:13:05-05:00".
std::string clock_of(const std::optional<std::string>& moment) {
  return moment && moment->size() >= 16 ? moment->substr(11, 5) : "\u2013";
}

paper::TimerMonth month_of(const study::MonthTimes& month) {
  constexpr std::array<const char*, 12> names{"January", "February", "March",     "April",   "May",      "June",
                                              "July",    "August",   "September", "October", "November", "December"};
  paper::TimerMonth out;
  out.month = names.at((month.month - 1) % 12);
  if (month.days.empty()) return out;
  const study::DayRow& day = month.days[month.days.size() / 2];
  out.sunset = clock_of(day.sun.sunset);
  // The first entry that runs that day: the card shows one line a month, the words above tell of all.
  const study::EntryTimes* entry = day.entries.empty() ? nullptr : &day.entries.front();
  out.on = entry == nullptr ? "\u2013" : clock_of(entry->on);
  out.off = entry == nullptr ? "\u2013" : clock_of(entry->off);
  return out;
}

}  // namespace

std::optional<paper::TimerCard> timer_card(const job::Job& job, const job::Catalogue& stock, const std::string& date) {
  const int year = year_of(date);
  if (job.programme.empty() || job.site.time_zone.empty() || !job.site.latitude_deg || !job.site.longitude_deg ||
      year < study::first_times_year || year > zones::last_known_year) {
    return std::nullopt;
  }
  Result<almanac::Zone> zone = zones::zone_of(job.site.time_zone, year, year);
  if (!zone) return std::nullopt;
  study::TimesRequest request;
  request.year = year;
  request.zone = std::move(zone).value();
  request.days = false;
  const study::Times times = study::times(job, stock, request);
  if (times.months.empty()) return std::nullopt;
  paper::TimerCard card;
  for (const study::EntryYear& entry : times.entries) {
    if (!card.programme.empty()) card.programme += "\n";
    card.programme += (entry.name.empty() ? entry.id : entry.name) + ": " + entry.words + ".";
  }
  for (const study::MonthTimes& month : times.months) card.months.push_back(month_of(month));
  card.remark = "Year " + std::to_string(year) + ", by the clock of " + times.zone + ".";
  for (const study::ClockChangeDay& change : times.clock_changes) {
    card.remark += " Clocks go " + std::string(change.by_min > 0 ? "forward" : "back") + " on " + change.date + ".";
  }
  card.burn_h_per_year = times.hours;
  card.energy_kwh_per_year = times.energy_kwh;
  return card;
}

std::string care_calendar_of(const job::Job& job, const std::string& date, std::int64_t stamp_utc_s) {
  const int year = year_of(date);
  if (job.site.time_zone.empty() || year < study::first_times_year || year + calendar_years > zones::last_known_year)
    return "";
  const Result<almanac::Zone> zone = zones::zone_of(job.site.time_zone, year, year + calendar_years);
  if (!zone) return "";
  const auto dates = study::care_dates(job, zone.value(), year, year + calendar_years);
  if (dates.empty()) return "";
  return formats::calendar_text(formats::care_calendar(job, dates, zone.value(), stamp_utc_s));
}

}  // namespace duskwire::server
