// SPDX-License-Identifier: Apache-2.0
// Rise, set, twilight, noon and polar days of tests/reference/sun.csv: tables of the US Naval Observatory, tables to
// the second, and the worked example of NREL/TP-560-34302; each row names its own source and tolerance.
#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <optional>
#include <string>

#include "almanac/sun_day.hpp"
#include "almanac/utc_text.hpp"
#include "reference_rows.hpp"

namespace duskwire::almanac {
namespace {

std::optional<double> event_s(const SunDay& day, const std::string& quantity) {
  if (quantity == "sunrise") return day.sun.rise_s;
  if (quantity == "sunset") return day.sun.set_s;
  if (quantity == "civil_dawn") return day.civil.rise_s;
  if (quantity == "civil_dusk") return day.civil.set_s;
  if (quantity == "nautical_dawn") return day.nautical.rise_s;
  if (quantity == "nautical_dusk") return day.nautical.set_s;
  if (quantity == "astro_dawn") return day.astronomical.rise_s;
  if (quantity == "astro_dusk") return day.astronomical.set_s;
  if (quantity == "transit") return day.noon_s;
  ADD_FAILURE() << "a quantity that this test does not know: " << quantity;
  return std::nullopt;
}

SunDay day_of(const ReferenceRow& row) {
  const Place place{row.number("lat_deg"), row.number("lon_deg_east")};
  const Date date = testing::read_date(row.text("local_date"));
  return sun_day(place, date, row.has("local_time") ? testing::read_offset_s(row.text("local_time")) : 0);
}

// Rows without a zone name the day by universal time: far from Greenwich the moment is of a neighbouring sun's day.
std::optional<double> moment_s(const ReferenceRow& row) {
  if (row.has("local_time")) return event_s(day_of(row), row.text("quantity"));
  const Place place{row.number("lat_deg"), row.number("lon_deg_east")};
  const Date date = testing::read_date(row.text("local_date"));
  for (const int shift : {-1, 0, 1}) {
    const auto found = event_s(sun_day(place, later_by(date, shift)), row.text("quantity"));
    if (found && date_of(static_cast<std::int64_t>(*found) / seconds_per_day) == date) return found;
  }
  return std::nullopt;
}

TEST(ReferenceSun, EachMomentIsWithinItsTolerance) {
  int rows = 0;
  double largest_s = 0;
  for (const ReferenceRow& row : reference_rows("sun.csv")) {
    if (row.text("unit") != "utc") continue;
    ++rows;
    SCOPED_TRACE(row.text("id") + " " + row.text("place") + " " + row.text("local_date") + " " + row.text("quantity"));
    const std::optional<double> found = moment_s(row);
    // The table's own note: one source gives this day six minutes of sun, others none. Either is right.
    if (!found && row.text("note").find("accept either") != std::string::npos) continue;
    ASSERT_TRUE(found.has_value());
    const double off_s = std::abs(*found - static_cast<double>(testing::read_utc_s(row.text("expected"))));
    EXPECT_LE(off_s, row.number("tolerance"));
    if (row.number("tolerance") <= 60) largest_s = std::max(largest_s, off_s);
  }
  EXPECT_EQ(rows, 207);
  RecordProperty("largest_s", std::to_string(largest_s));
}

TEST(ReferenceSun, PolarDayAndNightAreSaid) {
  int rows = 0;
  for (const ReferenceRow& row : reference_rows("sun.csv")) {
    if (row.text("quantity") != "day_state") continue;
    ++rows;
    const SunDay day = day_of(row);
    if (row.text("id") == "Gtr01-15") continue;  // the test below
    const bool polar_day = row.text("expected") == "polar_day";
    EXPECT_TRUE(polar_day || row.text("expected") == "polar_night");
    EXPECT_EQ(day.sun.state, polar_day ? SunState::always_above : SunState::always_below) << row.text("id");
    EXPECT_FALSE(day.sun.rise_s || day.sun.set_s) << row.text("id");
  }
  EXPECT_EQ(rows, 7);
}

// The one row that is not met: its table calls 2022-01-15 at Tromso polar night and begins the sun's year a day later.
// By the definition in force (the middle 50' below) the sun is up that day for some forty minutes: ephem 4.1.4 finds it
// from 10:34:44 to 11:13:12 UTC and highest at -0.768 degrees. The room agrees with ephem and with the definition.
TEST(ReferenceSun, TheFirstSunAtTromsoIsADayBeforeOneTable) {
  const SunDay day = sun_day({69.682778, 18.942778}, make_date(2022, 1, 15), 3600);
  ASSERT_TRUE(day.sun.rise_s && day.sun.set_s);
  EXPECT_NEAR(*day.sun.rise_s, static_cast<double>(testing::read_utc_s("2022-01-15T10:34:44Z")), 60);
  EXPECT_NEAR(*day.sun.set_s, static_cast<double>(testing::read_utc_s("2022-01-15T11:13:12Z")), 60);
  const SunDay before = sun_day({69.682778, 18.942778}, make_date(2022, 1, 14), 3600);
  EXPECT_EQ(before.sun.state, SunState::always_below);
}

}  // namespace
}  // namespace duskwire::almanac
