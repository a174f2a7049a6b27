// SPDX-License-Identifier: Apache-2.0
#include "server/timer_card.hpp"

#include <algorithm>
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
constexpr int card_day = 11;
constexpr const char* none = "\u2013";

int year_of(const std::string& date) { return date.size() < 4 ? 0 : std::atoi(date.substr(0, 4).c_str()); }

// "19:13" of "2026-03-08T19:13:05-05:00".
std::string clock_of(const std::optional<std::string>& moment) {
  return moment && moment->size() >= 16 ? moment->substr(11, 5) : none;
}

// Which month and which day of it a row is.
int month_of(const study::DayRow& row) { return std::atoi(row.date.substr(5, 2).c_str()); }
int day_of(const study::DayRow& row) { return std::atoi(row.date.substr(8, 2).c_str()); }

const study::EntryTimes* entry_of(const study::DayRow& row, const std::string& id) {
  const auto found =
      std::find_if(row.entries.begin(), row.entries.end(), [&](const auto& entry) { return entry.entry == id; });
  return found == row.entries.end() ? nullptr : &*found;
}

std::string span_of(const study::EntryTimes& entry) {
  return entry.on && entry.off ? clock_of(entry.on) + " to " + clock_of(entry.off) : "no light";
}

// Of the day nearest to the card's on which the entry runs.
std::string span_in(const std::vector<study::DayRow>& days, int month, const std::string& entry) {
  const study::EntryTimes* nearest = nullptr;
  int away = 0;
  for (const study::DayRow& row : days) {
    if (month_of(row) != month) continue;
    const study::EntryTimes* times = entry_of(row, entry);
    const int from_card = std::abs(day_of(row) - card_day);
    if (times == nullptr || (nearest != nullptr && from_card >= away)) continue;
    nearest = times;
    away = from_card;
  }
  return nearest == nullptr ? none : span_of(*nearest);
}

paper::TimerMonth timer_month(const study::Times& times, int month) {
  constexpr std::array<const char*, 12> names{"January", "February", "March",     "April",   "May",      "June",
                                              "July",    "August",   "September", "October", "November", "December"};
  paper::TimerMonth out;
  out.month = names.at(static_cast<std::size_t>(month - 1));
  out.sunset = none;
  for (const study::DayRow& row : times.days) {
    if (month_of(row) == month && day_of(row) == card_day) out.sunset = clock_of(row.sun.sunset);
  }
  for (const study::EntryYear& entry : times.entries) out.spans.push_back(span_in(times.days, month, entry.id));
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
  const study::Times times = study::times(job, stock, request);
  if (times.days.empty()) return std::nullopt;
  paper::TimerCard card;
  for (const study::EntryYear& entry : times.entries) {
    if (!card.programme.empty()) card.programme += "\n";
    card.entries.push_back(entry.name.empty() ? entry.id : entry.name);
    card.programme += card.entries.back() + ": " + entry.words + ".";
  }
  for (int month = 1; month <= 12; ++month) card.months.push_back(timer_month(times, month));
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
