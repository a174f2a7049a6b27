// SPDX-License-Identifier: Apache-2.0
#include "study/times.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <numeric>

#include "almanac/zones_2026.hpp"
#include "study/wired_jobs.hpp"

namespace duskwire::study {
namespace {

using almanac::testing::chicago_2026;
using ::testing::HasSubstr;
using ::testing::StartsWith;

job::ProgrammeEntry entry(const char* id, job::SwitchRule on, job::SwitchRule off) {
  job::ProgrammeEntry made;
  made.id = id;
  made.on = std::move(on);
  made.off = std::move(off);
  return made;
}

job::SwitchRule at(const char* time) { return {job::SwitchBase::clock, time, {}, {}}; }
job::SwitchRule sunset(double offset_min = 0) { return {job::SwitchBase::sunset, "", offset_min, {}}; }
job::SwitchRule sunrise(double offset_min = 0) { return {job::SwitchBase::sunrise, "", offset_min, {}}; }

// The acceptance site with the clock of its story: sunset + 15 min to 23:00.
job::Job site_s() {
  job::Job job = tests::two_splice_site();
  job.site.latitude_deg = 41.60;
  job.site.longitude_deg = -93.60;
  job.programme = {entry("evening", sunset(15), at("23:00"))};
  return job;
}

TimesRequest year_2026() { return {2026, chicago_2026(), {}, true}; }

Times times_of(const job::Job& job) { return times(job, tests::stock(), year_2026()); }

const DayRow& day(const Times& times, const std::string& date) {
  const auto found =
      std::find_if(times.days.begin(), times.days.end(), [&](const DayRow& row) { return row.date == date; });
  if (found == times.days.end()) throw std::out_of_range(date);
  return *found;
}

bool has_finding(const Times& times, const std::string& id) {
  return std::any_of(times.findings.begin(), times.findings.end(), [&](const Finding& f) { return f.id == id; });
}

double clock_min(const std::string& moment) {
  return std::stod(moment.substr(11, 2)) * 60 + std::stod(moment.substr(14, 2)) + std::stod(moment.substr(17, 2)) / 60;
}

// Acceptance story "Clock": sunsets within two minutes, ON on 8 March at 19:28.
TEST(Times, StoryOfTheClock) {
  const Times found = times_of(site_s());
  ASSERT_EQ(found.days.size(), 365u);
  const std::pair<const char*, double> sunsets[] = {{"2026-03-07", 18 * 60 + 12},
                                                    {"2026-03-08", 19 * 60 + 13},
                                                    {"2026-06-21", 20 * 60 + 52},
                                                    {"2026-11-01", 17 * 60 + 9},
                                                    {"2026-12-21", 16 * 60 + 47}};
  for (const auto& [date, minute] : sunsets) {
    const DayRow& row = day(found, date);
    EXPECT_NEAR(clock_min(row.sun.sunset.value()), minute, 2) << date;
    ASSERT_EQ(row.entries.size(), 1u);
    EXPECT_NEAR(clock_min(row.entries[0].on.value()), minute + 15, 2) << date;
    EXPECT_THAT(row.entries[0].off.value(), StartsWith(std::string(date) + "T23:00:00")) << date;
  }
  EXPECT_EQ(day(found, "2026-03-08").entries[0].on.value().substr(11, 5), "19:28");
  EXPECT_EQ(day(found, "2026-03-08").clock_change_min, 60);
  ASSERT_EQ(found.clock_changes.size(), 2u);
  EXPECT_EQ(found.clock_changes[0].date, "2026-03-08");
  EXPECT_EQ(found.clock_changes[1].abbreviation, "CST");
  EXPECT_TRUE(found.sound);
}

TEST(Times, PolarDayStaysOffAndSaysSo) {
  job::Job job = site_s();
  job.site.latitude_deg = 66.90;
  job.site.longitude_deg = 25.00;
  const Times found = times(job, tests::stock(), {2026, almanac::testing::helsinki_2026(), {}, true});
  const DayRow& summer = day(found, "2026-06-21");
  EXPECT_EQ(summer.sun.state, DayState::polar_day);
  EXPECT_FALSE(summer.sun.sunset);
  EXPECT_EQ(summer.entries[0].state, EntryState::no_sunset);
  EXPECT_FALSE(summer.entries[0].on);
  EXPECT_EQ(summer.entries[0].words, "The sun does not set: the lights stay off.");
  EXPECT_NEAR(clock_min(day(found, "2026-12-21").sun.sunset.value()), 13 * 60 + 8, 2);
  EXPECT_GT(found.entries[0].nights_without_sunset, 20u);
  EXPECT_TRUE(has_finding(found, "times/polar-day"));
}

TEST(Times, MonthsHaveTheirCardAndAddUpToTheYear) {
  const Times found = times_of(site_s());
  ASSERT_EQ(found.months.size(), 12u);
  double hours = 0, energy_kwh = 0;
  for (const MonthTimes& month : found.months) {
    ASSERT_EQ(month.days.size(), 3u);
    EXPECT_THAT(month.days[1].date, HasSubstr("-11"));
    hours += month.hours;
    energy_kwh += month.energy_kwh;
  }
  EXPECT_NEAR(hours, found.hours, 1e-6);
  EXPECT_NEAR(energy_kwh, found.energy_kwh, 1e-6);
  double rows = 0;
  for (const DayRow& row : found.days) rows += row.entries[0].hours;
  EXPECT_NEAR(rows, found.hours, 1e-6);
  EXPECT_NEAR(found.entries[0].hours, found.hours, 1e-6);
}

// A clock programme makes hours that need no sun: 5 h x 365. Eight lamps behind an ideal transformer take their watts
// and what the cables lose.
TEST(Times, EnergyIsLampsAndLossesTimesHours) {
  job::Job job = site_s();
  job.programme = {entry("clock", at("18:00"), at("23:00"))};
  TimesRequest request = year_2026();
  request.tariff = almanac::Tariff{20, {}};
  const Times found = times(job, tests::stock(), request);
  ASSERT_EQ(found.supplies.size(), 1u);
  double lamps_w = 0;
  for (const job::Luminaire& lamp : job.luminaires) lamps_w += job::find_luminaire(job.catalogue, lamp.item)->power_w;
  EXPECT_NEAR(found.supplies[0].full_w, lamps_w, 1e-9);
  EXPECT_GT(found.supplies[0].loss_w, 1);
  EXPECT_NEAR(found.hours, 365 * 5, 1e-9);
  EXPECT_NEAR(found.energy_kwh, (lamps_w + found.supplies[0].loss_w) * 365 * 5 / 1000, 1e-6);
  EXPECT_NEAR(found.cost_minor.value(), found.energy_kwh * 20, 1e-6);
  EXPECT_FALSE(times_of(job).cost_minor);
}

TEST(Times, ZonesTransformersAndDimmingGoToTheirLamps) {
  job::Job job = site_s();
  job.luminaires[7].zone = "wall";
  job.programme = {entry("all", at("18:00"), at("23:00")), entry("wall", at("21:00"), at("22:00")),
                   entry("elsewhere", at("18:00"), at("19:00"))};
  job.programme[1].zones = {"wall"};
  job.programme[1].dim_pct = 25;
  job.programme[2].transformers = {"T9"};
  const Times found = times_of(job);
  EXPECT_EQ(found.entries[0].lamps.size(), 8u);
  EXPECT_EQ(found.entries[1].lamps, std::vector<std::string>{"F8"});
  EXPECT_TRUE(found.entries[2].lamps.empty());
  EXPECT_TRUE(has_finding(found, "times/no-lamps"));
  EXPECT_NEAR(found.lamps[0].full_hours, 365 * 5, 1e-9);
  EXPECT_NEAR(found.lamps[7].hours, 365 * 5, 1e-9);
  EXPECT_NEAR(found.lamps[7].full_hours, 365 * (4 + 0.25), 1e-9);
}

TEST(Times, SaysWhatIsOddAboutAProgramme) {
  job::Job job = site_s();
  job.programme[0].zones = {"wall"};
  EXPECT_TRUE(has_finding(times_of(job), "times/never-switched"));
  job = site_s();
  job.programme[0].from_day = "06-01";
  EXPECT_TRUE(has_finding(times_of(job), "times/half-a-season"));
  job.programme[0] = entry("never", sunset(), at("12:00"));
  EXPECT_TRUE(has_finding(times_of(job), "times/never-lit"));
  job.programme[0] = entry("same", at("20:00"), at("20:00"));
  EXPECT_TRUE(has_finding(times_of(job), "times/same-time"));
  job.programme[0] = entry("day", sunrise(), sunset());
  EXPECT_TRUE(has_finding(times_of(job), "times/by-day"));
  job.programme.clear();
  EXPECT_TRUE(has_finding(times_of(job), "times/no-programme"));
  EXPECT_EQ(times_of(job).hours, 0);
}

TEST(Times, LooksAtTheClocksOfTheTransformers) {
  job::Job job = site_s();
  EXPECT_TRUE(has_finding(times_of(job), "times/no-sun-clock"));
  job.catalogue.controls = {{"astro", "", job::ControlKind::astronomic_timer, 0, 0, {}},
                            {"dial", "", job::ControlKind::mechanical_timer, 0, 0, {}},
                            {"cell", "", job::ControlKind::photocell, 0, 0, {}}};
  job.transformers[0].controls = {"astro"};
  EXPECT_TRUE(times_of(job).findings.empty());
  job.transformers[0].controls = {"astro", "cell"};
  EXPECT_TRUE(has_finding(times_of(job), "times/timer-and-photocell"));
  job.transformers[0].controls = {"dial"};
  EXPECT_TRUE(has_finding(times_of(job), "times/mechanical-timer"));
  EXPECT_TRUE(has_finding(times_of(job), "times/no-sun-clock"));
}

TEST(Times, WithoutAPositionThereIsAnErrorAndNothingElse) {
  job::Job job = site_s();
  job.site.latitude_deg.reset();
  const Times found = times_of(job);
  EXPECT_FALSE(found.sound);
  EXPECT_TRUE(has_finding(found, "times/no-position"));
  EXPECT_TRUE(found.days.empty() && found.months.empty());
}

TEST(Times, AnUnwiredJobStillHasItsTimes) {
  job::Job job = site_s();
  job.cables.clear();
  job.transformers.clear();
  job.joints.clear();
  const Times found = times_of(job);
  ASSERT_EQ(found.supplies.size(), 1u);
  EXPECT_EQ(found.supplies[0].transformer, "");
  EXPECT_EQ(found.supplies[0].loss_w, 0);
  EXPECT_GT(found.energy_kwh, 0);
}

// One LED lamp of 500 lm at 5 W beside a halogen item of 500 lm at 35 W: 1825 h make 9.1 and 63.9 kWh.
TEST(Times, TheSameLightByLedAndByHalogen) {
  job::Job job = site_s();
  job.programme = {entry("clock", at("18:00"), at("23:00"))};
  job.luminaires.resize(1);
  job::LuminaireItem& led = job.catalogue.luminaires.front();
  job.luminaires[0].item = led.id;
  led.flux_lm = 500;
  led.power_w = 5;
  job::LuminaireItem halogen;
  halogen.id = "halogen";
  halogen.lamp = job::LampKind::filament;
  halogen.flux_lm = 500;
  halogen.power_w = 35;
  job::Catalogue stock;
  stock.luminaires = {led, halogen};
  TimesRequest request = year_2026();
  request.tariff = almanac::Tariff{20, {}};
  const Times found = times(job, stock, request);
  ASSERT_TRUE(found.retrofit);
  EXPECT_NEAR(found.retrofit->led.energy_kwh, 5 * 1.825, 1e-9);
  EXPECT_NEAR(found.retrofit->halogen.energy_kwh, 35 * 1.825, 1e-9);
  EXPECT_NEAR(found.retrofit->saved_minor.value(), 30 * 1.825 * 20, 1e-6);
  EXPECT_NEAR(found.retrofit->halogen.lamps_a_year, 1825 / found.retrofit->halogen.life_h, 1e-12);
  // From the other side: a halogen lamp in the job and the LED in the stock.
  job.catalogue.luminaires = {halogen};
  job.luminaires[0].item = "halogen";
  const Times turned = times(job, stock, request);
  ASSERT_TRUE(turned.retrofit);
  EXPECT_NEAR(turned.retrofit->saved_kwh, found.retrofit->saved_kwh, 1e-9);
}

TEST(Times, DaysAreLeftOutWhereNotAskedFor) {
  TimesRequest request = year_2026();
  request.days = false;
  const Times found = times(site_s(), tests::stock(), request);
  EXPECT_TRUE(found.days.empty());
  EXPECT_EQ(found.months.size(), 12u);
}

}  // namespace
}  // namespace duskwire::study
