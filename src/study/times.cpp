// SPDX-License-Identifier: Apache-2.0
#include "study/times.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <utility>

#include "study/times_energy.hpp"
#include "study/times_programme.hpp"

namespace duskwire::study {
namespace {

using almanac::ClockCase;
using almanac::Crossings;
using almanac::NightCase;
using almanac::SunState;

constexpr const char* weekday_names[] = {"mon", "tue", "wed", "thu", "fri", "sat", "sun"};

// In the order of almanac::NightCase.
constexpr EntryState entry_states[] = {EntryState::lit, EntryState::no_sunset, EntryState::over_before_it_begins};

class Writer {
 public:
  Writer(const job::Job& job, const TimesRequest& request) : job_(job), request_(request) {
    changes_ = almanac::clock_changes(request.zone, request.year);
  }

  [[nodiscard]] const std::vector<almanac::ClockChange>& changes() const { return changes_; }

  [[nodiscard]] DayRow day(const almanac::DayTimes& times) const {
    DayRow row;
    row.date = almanac::date_text(times.sun.date);
    row.weekday = weekday_names[almanac::weekday_of(times.sun.date)];
    for (const almanac::ClockChange& change : changes_) {
      if (change.date == times.sun.date) row.clock_change_min += change.by_s / 60.0;
    }
    row.sun = sun(times.sun);
    for (const almanac::Switching& each : times.switchings) row.entries.push_back(entry(each));
    return row;
  }

 private:
  [[nodiscard]] std::string text(double utc_s) const { return almanac::local_text(request_.zone, std::llround(utc_s)); }
  [[nodiscard]] std::optional<std::string> text(const std::optional<double>& utc_s) const {
    return utc_s ? std::optional(text(*utc_s)) : std::nullopt;
  }

  [[nodiscard]] SunTimes sun(const almanac::SunDay& day) const {
    SunTimes times;
    times.state = day.sun.state == SunState::always_above   ? DayState::polar_day
                  : day.sun.state == SunState::always_below ? DayState::polar_night
                                                            : DayState::rises_and_sets;
    times.noon = text(day.noon_s);
    times.sunrise = text(day.sun.rise_s);
    times.sunset = text(day.sun.set_s);
    times.civil_dawn = text(day.civil.rise_s);
    times.civil_dusk = text(day.civil.set_s);
    times.nautical_dawn = text(day.nautical.rise_s);
    times.nautical_dusk = text(day.nautical.set_s);
    times.astronomical_dawn = text(day.astronomical.rise_s);
    times.astronomical_dusk = text(day.astronomical.set_s);
    return times;
  }

  [[nodiscard]] EntryTimes entry(const almanac::Switching& each) const {
    EntryTimes times;
    times.entry = job_.programme[each.rule].id;
    times.state = entry_states[static_cast<std::size_t>(each.night)];
    times.words = words(each);
    if (each.night != NightCase::lit) return times;
    times.on = almanac::local_text(request_.zone, each.on_s);
    times.off = almanac::local_text(request_.zone, each.off_s);
    times.hours = static_cast<double>(each.off_s - each.on_s) / 3600;
    return times;
  }

  [[nodiscard]] std::string words(const almanac::Switching& each) const {
    if (each.night == NightCase::no_sunset) return "The sun does not set: the lights stay off.";
    std::string all;
    const auto add = [&](const char* sentence) { all += (all.empty() ? "" : " ") + std::string(sentence); };
    if (each.night == NightCase::over_before_it_begins)
      add("The time to go off is before the time to go on: no light.");
    if (each.dark_all_day) add("The sun does not rise: dusk and dawn are taken at noon by the sun.");
    if (each.on_clock == ClockCase::skipped) add("The clocks skip the time to go on: it is read an hour later.");
    if (each.on_clock == ClockCase::repeated) add("The clocks show the time to go on twice: the first counts.");
    if (each.off_clock == ClockCase::skipped) add("The clocks skip the time to go off: it is read an hour later.");
    if (each.off_clock == ClockCase::repeated) add("The clocks show the time to go off twice: the first counts.");
    return all;
  }

  const job::Job& job_;
  const TimesRequest& request_;
  std::vector<almanac::ClockChange> changes_;
};

std::vector<EntryYear> entry_years(const job::Job& job, const TimedProgramme& programme,
                                   const std::vector<almanac::DayTimes>& days) {
  std::vector<EntryYear> years;
  for (std::size_t i = 0; i < job.programme.size(); ++i) {
    EntryYear year;
    year.id = job.programme[i].id;
    year.name = job.programme[i].name;
    year.words = entry_words(job.programme[i]);
    for (const std::uint32_t lamp : programme.lamps[i]) year.lamps.push_back(job.luminaires[lamp].id);
    years.push_back(std::move(year));
  }
  for (const almanac::DayTimes& day : days) {
    for (const almanac::Switching& each : day.switchings) {
      EntryYear& year = years[each.rule];
      if (each.night == NightCase::no_sunset) ++year.nights_without_sunset;
      if (each.night == NightCase::over_before_it_begins) ++year.nights_too_short;
      if (each.night != NightCase::lit) continue;
      ++year.nights_lit;
      year.hours += static_cast<double>(each.off_s - each.on_s) / 3600;
    }
  }
  return years;
}

std::vector<MonthTimes> months_of(const std::vector<almanac::DayTimes>& days, const Writer& writer,
                                  const YearBurn& burn, const TimesRequest& request) {
  std::vector<MonthTimes> months;
  for (std::uint32_t m = 1; m <= 12; ++m) {
    MonthTimes month;
    month.month = m;
    std::vector<almanac::DayTimes> of_month;
    for (const almanac::DayTimes& day : days) {
      if (static_cast<unsigned>(day.sun.date.month()) != m) continue;
      of_month.push_back(day);
      const auto number = static_cast<unsigned>(day.sun.date.day());
      if (number == 1 || number == 11 || number == 21) month.days.push_back(writer.day(day));
    }
    const YearBurn::Sum sum = burn.sum(of_month, request.tariff.value_or(almanac::Tariff{}), request.zone);
    month.hours = sum.hours;
    month.energy_kwh = sum.total().energy_kwh;
    months.push_back(std::move(month));
  }
  return months;
}

std::vector<SupplyEnergy> supplies_of(const job::Job& job, const Powers& powers, const YearBurn::Sum& sum,
                                      bool priced) {
  std::vector<SupplyEnergy> list;
  for (std::size_t s = 0; s < powers.supplies.size(); ++s) {
    const bool none = s == job.transformers.size();
    const almanac::Supply& supply = powers.supplies[s];
    if (none && supply.full_w == 0) continue;
    list.push_back({none ? "" : job.transformers[s].id, supply.full_w, supply.core_loss_w + supply.line_loss_w,
                    sum.supplies[s].energy_kwh, priced ? std::optional(sum.supplies[s].cost_minor) : std::nullopt});
  }
  return list;
}

void say_what_never_burns(const Times& times, Findings& findings) {
  for (std::size_t i = 0; i < times.entries.size(); ++i) {
    const EntryYear& entry = times.entries[i];
    const std::string pointer = fmt::format("/programme/{}", i);
    if (entry.nights_lit == 0) {
      findings.push_back(
          times_finding("times/never-lit", Severity::warning, entry.id, pointer,
                        fmt::format("\"{}\" ({}) gives no light on any day of {}. Check its times, days and season.",
                                    entry.id, entry.words, times.year)));
    } else if (entry.nights_without_sunset > 0) {
      findings.push_back(times_finding("times/polar-day", Severity::note, entry.id, pointer,
                                       fmt::format("On {} days the sun does not set, and \"{}\" stays off.",
                                                   entry.nights_without_sunset, entry.id)));
    }
  }
}

std::vector<std::string> assumptions_of(const Times& times) {
  std::vector<std::string> list{
      "Sunrise and sunset are those of an open horizon at sea level: the sun's upper edge, with 34' of refraction.",
      "Power falls with the light when dimmed. The clock switches the mains side of the transformer.",
      "Losses are those of the wiring as drawn, all lamps on, and fall with the square of the load."};
  if (times.retrofit) {
    list.push_back(
        fmt::format("Equal light by the stock's nearest lamp of the other kind. LED last {:.0f} h, halogen "
                    "{:.0f} h: common practice, no source.",
                    times.retrofit->led.life_h, times.retrofit->halogen.life_h));
  }
  return list;
}

}  // namespace

Times times(const job::Job& job, const job::Catalogue& stock, const TimesRequest& request) {
  Times result;
  result.year = request.year;
  result.zone = request.zone.name;
  result.currency = job.site.currency;
  if (!job.site.latitude_deg || !job.site.longitude_deg) {
    result.findings.push_back(times_finding(
        "times/no-position", Severity::error, job.id, "/site",
        "The site has no latitude and longitude, so there is no sunset to count from. Give both in degrees."));
    return result;
  }
  result.latitude_deg = *job.site.latitude_deg;
  result.longitude_deg = *job.site.longitude_deg;
  const Powers powers = powers_of(job);
  const TimedProgramme programme = timed_programme(job, powers.transformer_of);
  const std::vector<almanac::DayTimes> days =
      almanac::switching_year(programme.rules, {result.latitude_deg, result.longitude_deg}, request.zone, request.year);
  const Writer writer(job, request);
  const YearBurn burn(job, powers, programme);
  const YearBurn::Sum sum = burn.sum(days, request.tariff.value_or(almanac::Tariff{}), request.zone);

  for (const almanac::ClockChange& change : writer.changes()) {
    result.clock_changes.push_back({almanac::date_text(change.date), change.by_s / 60.0, change.abbreviation});
  }
  result.entries = entry_years(job, programme, days);
  if (request.days) {
    for (const almanac::DayTimes& day : days) result.days.push_back(writer.day(day));
  }
  result.months = months_of(days, writer, burn, request);
  result.hours = sum.hours;
  result.lamps = burn.lamps(days);
  result.supplies = supplies_of(job, powers, sum, request.tariff.has_value());
  result.energy_kwh = sum.total().energy_kwh;
  if (request.tariff) result.cost_minor = sum.total().cost_minor;
  result.retrofit = retrofit_of(job, stock, result.lamps, request.tariff);
  result.assumptions = assumptions_of(result);
  result.findings = programme.findings;
  say_what_never_burns(result, result.findings);
  std::stable_sort(result.findings.begin(), result.findings.end(),
                   [](const Finding& a, const Finding& b) { return a.severity > b.severity; });
  result.sound = std::none_of(result.findings.begin(), result.findings.end(),
                              [](const Finding& each) { return each.severity == Severity::error; });
  return result;
}

}  // namespace duskwire::study
