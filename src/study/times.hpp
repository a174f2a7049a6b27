// SPDX-License-Identifier: Apache-2.0
// The verb `times`: when a job's lights go on and off over a year, by the sun and by the clock, what they burn and what
// that costs, and the same light by LED and by halogen. Method: docs/algorithms/almanac.md. Energy is an estimate.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "almanac/burn.hpp"
#include "almanac/programme.hpp"
#include "job/job.hpp"
#include "study/finding.hpp"

namespace duskwire::study {

struct TimesRequest {
  int year = 0;        // 1986 to 2150
  almanac::Zone zone;  // of the site, with the changes of that year
  std::optional<almanac::Tariff> tariff;
  bool days = true;  // each day of the year, not the months alone
};
inline constexpr int first_times_year = 1986;
inline constexpr int last_times_year = 2150;

enum class DayState : std::uint8_t { rises_and_sets = 0, polar_day = 1, polar_night = 2 };

// Moments as the site's clocks show them: "2026-03-08T19:13:05-05:00". Absent where there is none that day.
struct SunTimes {
  DayState state = DayState::rises_and_sets;
  std::optional<std::string> sunrise;
  std::string noon;
  std::optional<std::string> sunset;
  std::optional<std::string> civil_dawn;
  std::optional<std::string> civil_dusk;
  std::optional<std::string> nautical_dawn;
  std::optional<std::string> nautical_dusk;
  std::optional<std::string> astronomical_dawn;
  std::optional<std::string> astronomical_dusk;
};

enum class EntryState : std::uint8_t {
  lit = 0,
  no_sunset = 1,
  over_before_it_begins = 2,
};

struct EntryTimes {
  std::string entry;  // id in the programme
  EntryState state = EntryState::lit;
  std::optional<std::string> on;
  std::optional<std::string> off;
  double hours = 0;
  std::string words;  // what is particular that day; empty: nothing
};

struct DayRow {
  std::string date;
  std::string weekday;          // mon ... sun
  double clock_change_min = 0;  // forward positive; 0: none that day
  SunTimes sun;
  std::vector<EntryTimes> entries;  // that run that day
};

struct MonthTimes {
  std::uint32_t month = 1;
  std::vector<DayRow> days;  // the 1st, 11th and 21st: what a card at the timer shows
  double hours = 0;          // with any light in the garden
  double energy_kwh = 0;
};

struct ClockChangeDay {
  std::string date;
  double by_min = 0;         // forward positive
  std::string abbreviation;  // in force from then on
};

struct EntryYear {
  std::string id;
  std::string name;
  std::string words;               // "from sunset + 15 min to 23:00, every day"
  std::vector<std::string> lamps;  // ids of the luminaires that it switches
  std::uint32_t nights_lit = 0;
  std::uint32_t nights_without_sunset = 0;
  std::uint32_t nights_too_short = 0;  // over before they begin
  double hours = 0;
};

struct LampBurn {
  std::string id;
  double hours = 0;
  double full_hours = 0;  // weighted by the dimming of the programme
};

struct SupplyEnergy {
  std::string transformer;  // empty: lamps that hang on none
  double full_w = 0;        // its lamps, all on
  double loss_w = 0;        // core, windings and cables then
  double energy_kwh = 0;
  std::optional<double> cost_minor;
};

// The same light by one kind of lamp.
struct RetrofitSide {
  double lamps_w = 0;
  double energy_kwh = 0;  // at the lamps, without losses
  std::optional<double> cost_minor;
  double life_h = 0;
  double lamps_a_year = 0;  // that burn out
};

struct Retrofit {
  RetrofitSide led;
  RetrofitSide halogen;
  double saved_kwh = 0;
  std::optional<double> saved_minor;
  std::uint32_t lamps = 0;     // compared
  std::uint32_t left_out = 0;  // lamps whose light is not known, or that no entry lights
};

struct Times {
  int year = 0;
  std::string zone;
  double latitude_deg = 0;
  double longitude_deg = 0;
  std::vector<ClockChangeDay> clock_changes;
  std::vector<EntryYear> entries;
  std::vector<DayRow> days;  // empty where not asked for
  std::vector<MonthTimes> months;
  double hours = 0;  // with any light in the garden
  std::vector<LampBurn> lamps;
  std::vector<SupplyEnergy> supplies;
  double energy_kwh = 0;
  std::optional<double> cost_minor;
  std::string currency;
  std::optional<Retrofit> retrofit;
  std::vector<std::string> assumptions;
  Findings findings;
  bool sound = false;  // no finding is an error
};

// `stock` supplies the lamps of the other kind. A job without a position has no times, and a finding that says so.
[[nodiscard]] Times times(const job::Job& job, const job::Catalogue& stock, const TimesRequest& request);

}  // namespace duskwire::study
