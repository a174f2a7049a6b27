// SPDX-License-Identifier: Apache-2.0
// Rise, passage and set of another body by the same way: Meeus, example 15.a (Venus at Boston, 1988-03-20), rows M20 to
// M22 of tests/reference/sun.csv.
#include "almanac/day_track.hpp"

#include <gtest/gtest.h>

#include "almanac/crossings.hpp"
#include "almanac/sun_place.hpp"
#include "almanac/utc_text.hpp"
#include "reference_rows.hpp"

namespace duskwire::almanac {
namespace {

double degrees(double whole, double minutes, double seconds) { return whole + minutes / 60 + seconds / 3600; }

TEST(DayTrack, FindsTheMomentsOfVenusAtBoston) {
  DayTrack venus;
  venus.middle_jd = 2447240.5;
  venus.right_ascension_deg = {15 * degrees(2, 42, 43.25), 15 * degrees(2, 46, 55.51), 15 * degrees(2, 51, 7.69)};
  venus.declination_deg = {degrees(18, 2, 51.4), degrees(18, 26, 27.3), degrees(18, 49, 38.7)};
  venus.equinox_deg = 15 * degrees(11, 50, 58.1) - sidereal_deg(venus.middle_jd, 0, 0);
  venus.delta_t_s = 56;
  const Place boston{42.3333, -71.0833};
  const double start_s = (venus.middle_jd - jd_of_1970) * seconds_per_day;
  const Crossings found = SkyCurve(venus, boston, start_s, start_s + seconds_per_day).through(-0.5667);
  ASSERT_TRUE(found.rise_s && found.set_s);
  const double transit_s = passage_s(venus, boston, 0, start_s + 0.8 * seconds_per_day);
  int rows = 0;
  for (const ReferenceRow& row : reference_rows("sun.csv")) {
    if (row.text("id") < "M20" || row.text("id") > "M22") continue;
    const std::string& quantity = row.text("quantity");
    const double moment_s = quantity == "venus_rise_dayfraction"  ? *found.rise_s
                            : quantity == "venus_set_dayfraction" ? *found.set_s
                                                                  : transit_s;
    EXPECT_NEAR((moment_s - start_s) / seconds_per_day, row.number("expected"), row.number("tolerance")) << quantity;
    ++rows;
  }
  EXPECT_EQ(rows, 3);
}

TEST(DayTrack, TheSunIsHighestNearItsPassage) {
  const DayTrack track = sun_track(make_date(2026, 6, 21));
  const Place site{41.6, -93.6};
  const double noon_s = passage_s(track, site, 0, static_cast<double>(testing::read_utc_s("2026-06-21T18:00:00Z")));
  // Closed form: 90 - latitude + declination, 23.44 at the solstice.
  EXPECT_NEAR(altitude_deg(track, site, noon_s), 90 - 41.6 + 23.44, 0.01);
  EXPECT_NEAR(hour_angle_deg(track, site, noon_s), 0, 1e-6);
}

}  // namespace
}  // namespace duskwire::almanac
