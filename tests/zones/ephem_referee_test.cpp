// SPDX-License-Identifier: Apache-2.0
// 5,000 random places, zones and dates, a third of them near the polar circles and half on or beside a day when clocks
// change, against ephem and Python's zoneinfo (ephem_referee.py). None is left out: where the sun only grazes the
// altitude, both must agree to within the hundredth of a degree that parallax and rounding leave.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <random>
#include <sstream>
#include <string>
#include <vector>

#include "almanac/sun_day.hpp"
#include "zones/zone_table.hpp"

namespace duskwire::zones {
namespace {

using almanac::Crossings;
using almanac::Date;
using almanac::SunDay;

constexpr unsigned seed = 20261101;
constexpr int cases = 5000;

// Both hemispheres, half hours, quarter hours, changes of two hours, no changes, both sides of the date line.
const char* const zone_names[] = {"America/Chicago",   "America/New_York",  "America/St_Johns",    "America/Phoenix",
                                  "America/Anchorage", "Europe/London",     "Europe/Oslo",         "Europe/Helsinki",
                                  "Europe/Paris",      "Australia/Sydney",  "Australia/Lord_Howe", "Pacific/Auckland",
                                  "Pacific/Chatham",   "Pacific/Apia",      "Asia/Kathmandu",      "Asia/Kolkata",
                                  "America/Santiago",  "Africa/Casablanca", "Pacific/Honolulu",    "Antarctica/Troll",
                                  "Atlantic/Azores",   "Asia/Jerusalem",    "America/Nuuk",        "UTC"};

struct Case {
  almanac::Zone zone;
  almanac::Place place;
  Date date;
  double altitude_deg = 0;
  std::int32_t clock_s = 0;
};

struct Verdict {
  double noon_s = 0, begin_s = 0, end_s = 0;
  std::string rise, set;
  double highest_deg = 0, lowest_deg = 0;
  std::string local_set;
  std::int64_t clock_utc_s = 0;
};

class Dice {
 public:
  double within(double low, double high) { return std::uniform_real_distribution<double>(low, high)(engine_); }
  int whole(int low, int high) { return std::uniform_int_distribution<int>(low, high)(engine_); }

 private:
  std::mt19937 engine_{seed};
};

double random_latitude(Dice& dice) {
  const int kind = dice.whole(0, 5);
  if (kind < 2) return (kind == 0 ? 1 : -1) * dice.within(65.5, 68.5);  // about the polar circles
  if (kind == 2) return (dice.whole(0, 1) == 0 ? 1 : -1) * dice.within(68.5, 89);
  return dice.within(-66, 66);
}

Case random_case(Dice& dice) {
  Case made;
  const int year = dice.whole(1990, last_known_year);
  made.zone = zone_of(zone_names[dice.whole(0, std::size(zone_names) - 1)], year, year).value();
  made.place = {std::round(random_latitude(dice) * 1e4) / 1e4, std::round(dice.within(-180, 180) * 1e4) / 1e4};
  made.date = almanac::later_by(almanac::make_date(year, 1, 1), dice.whole(0, 364));
  made.clock_s = dice.whole(0, 86399);
  const auto changes = clock_changes(made.zone, year);
  if (!changes.empty() && dice.whole(0, 3) < 3) {
    const auto& change = changes[static_cast<std::size_t>(dice.whole(0, static_cast<int>(changes.size()) - 1))];
    made.date = almanac::later_by(change.date, dice.whole(0, 3) == 0 ? dice.whole(-1, 1) : 0);
    made.clock_s = dice.whole(0, 4 * 3600);
  }
  constexpr double altitudes[] = {almanac::rise_altitude_deg, almanac::rise_altitude_deg, almanac::civil_altitude_deg,
                                  almanac::nautical_altitude_deg, almanac::astronomical_altitude_deg};
  made.altitude_deg = altitudes[dice.whole(0, 4)];
  return made;
}

std::string degrees_text(double degrees) {
  return degrees == almanac::rise_altitude_deg ? "-0:50" : fmt::format("{}", degrees);
}

std::vector<Verdict> referee(const std::vector<Case>& all) {
  const auto folder = std::filesystem::temp_directory_path() / fmt::format("duskwire-ephem-{}", seed);
  std::filesystem::create_directories(folder);
  const std::string in = (folder / "in").string(), out = (folder / "out").string();
  {
    std::ofstream file(in);
    for (const Case& each : all) {
      file << fmt::format("{} {:.4f} {:.4f} {} {} {:02}:{:02}:{:02}\n", each.zone.name, each.place.latitude_deg,
                          each.place.longitude_deg, almanac::date_text(each.date), degrees_text(each.altitude_deg),
                          each.clock_s / 3600, each.clock_s / 60 % 60, each.clock_s % 60);
    }
  }
  const std::string script = std::string(DUSKWIRE_SOURCE_DIR) + "/tests/zones/ephem_referee.py";
  const int status = std::system(fmt::format("/usr/bin/python3 '{}' < '{}' > '{}'", script, in, out).c_str());
  EXPECT_EQ(status, 0) << "python3-ephem is needed: tools/ensure_packages test";
  std::vector<Verdict> verdicts;
  std::ifstream file(out);
  for (Verdict v; file >> v.noon_s >> v.begin_s >> v.end_s >> v.rise >> v.set >> v.highest_deg >> v.lowest_deg >>
                  v.local_set >> v.clock_utc_s;) {
    verdicts.push_back(v);
  }
  std::filesystem::remove_all(folder);
  return verdicts;
}

const Crossings& crossings_of(const SunDay& day, double altitude_deg) {
  if (altitude_deg == almanac::civil_altitude_deg) return day.civil;
  if (altitude_deg == almanac::nautical_altitude_deg) return day.nautical;
  if (altitude_deg == almanac::astronomical_altitude_deg) return day.astronomical;
  return day.sun;
}

// By how much altitude two moments differ: what a moment is worth where the sun moves slowly up.
constexpr double allowed_deg = 0.006;  // parallax 0.0024, delta T, and the definitions' rounding
constexpr double allowed_s = 3;

double altitude_at(const Case& each, const SunDay& day, double utc_s) {
  const auto middle = static_cast<std::int64_t>(std::lround(day.noon_s / almanac::seconds_per_day));
  return almanac::altitude_deg(almanac::sun_track(almanac::date_of(middle)), each.place, utc_s);
}

void compare(const char* what, const std::optional<double>& ours, const std::string& theirs, const Case& each,
             const SunDay& day, const Verdict& verdict) {
  if (ours && theirs != "-") {
    const double their_s = std::stod(theirs);
    if (std::abs(*ours - their_s) <= allowed_s) return;
    EXPECT_NEAR(altitude_at(each, day, their_s), each.altitude_deg, allowed_deg) << what;
    return;
  }
  if (!ours && theirs == "-") return;
  // One finds it, the other does not: only where the sun grazes the altitude at noon or at the lower passages.
  const double graze =
      std::min({std::abs(verdict.highest_deg - each.altitude_deg), std::abs(verdict.lowest_deg - each.altitude_deg),
                std::abs(altitude_at(each, day, day.begin_s) - each.altitude_deg),
                std::abs(altitude_at(each, day, day.end_s) - each.altitude_deg)});
  EXPECT_LE(graze, allowed_deg) << what << ": ours " << (ours ? fmt::format("{:.1f}", *ours) : "-") << ", theirs "
                                << theirs;
}

TEST(EphemReferee, AgreesOnFiveThousandPlacesZonesAndDates) {
  Dice dice;
  std::vector<Case> all;
  for (int i = 0; i < cases; ++i) all.push_back(random_case(dice));
  const std::vector<Verdict> verdicts = referee(all);
  ASSERT_EQ(verdicts.size(), all.size());
  int found = 0, without = 0, skipped = 0, repeated = 0;
  for (std::size_t i = 0; i < all.size(); ++i) {
    const Case& each = all[i];
    const Verdict& verdict = verdicts[i];
    SCOPED_TRACE(fmt::format("seed {}, case {}: {} at {}, {} on {}, through {}", seed, i, each.zone.name,
                             each.place.latitude_deg, each.place.longitude_deg, almanac::date_text(each.date),
                             each.altitude_deg));
    const std::int64_t clock_noon_s = moment_of(each.zone, each.date, 43200).utc_s;
    const SunDay day = sun_day(each.place, each.date, in_force(each.zone, clock_noon_s).offset_s);
    EXPECT_NEAR(day.noon_s, verdict.noon_s, allowed_s);
    EXPECT_NEAR(day.begin_s, verdict.begin_s, allowed_s);
    EXPECT_NEAR(day.end_s, verdict.end_s, allowed_s);
    const Crossings& sun = crossings_of(day, each.altitude_deg);
    compare("rise", sun.rise_s, verdict.rise, each, day, verdict);
    compare("set", sun.set_s, verdict.set, each, day, verdict);
    if (verdict.set != "-") {
      std::string local = local_text(each.zone, std::llround(std::stod(verdict.set)));
      local.erase(local.size() - 3, 1);
      EXPECT_EQ(local, verdict.local_set);
    }
    const almanac::ClockMoment clock = moment_of(each.zone, each.date, each.clock_s);
    EXPECT_EQ(clock.utc_s, verdict.clock_utc_s);
    (sun.rise_s || sun.set_s ? found : without) += 1;
    skipped += clock.clock == almanac::ClockCase::skipped ? 1 : 0;
    repeated += clock.clock == almanac::ClockCase::repeated ? 1 : 0;
  }
  // The cases are of every kind.
  EXPECT_GT(found, 3000);
  EXPECT_GT(without, 300);
  EXPECT_GT(skipped, 100);
  EXPECT_GT(repeated, 100);
}

}  // namespace
}  // namespace duskwire::zones
