// SPDX-License-Identifier: Apache-2.0
// Where the sun stands as seen from the middle of the earth, and how far the earth has turned. Equations of Reda and
// Andreas, "Solar Position Algorithm for Solar Radiation Applications", NREL/TP-560-34302 (rev. 2008), sections 3.1 to
// 3.11, which are those of Meeus, "Astronomical Algorithms", 2nd ed. (1998), ch. 22, 25 and appendix III. Stated there:
// 0.0003 degrees for the years -2000 to 6000.
#pragma once

namespace duskwire::almanac {

inline constexpr double jd_of_1970 = 2'440'587.5;
inline constexpr double jd_of_2000 = 2'451'545.0;

struct SunPlace {
  double right_ascension_deg = 0;  // apparent, 0 to 360
  double declination_deg = 0;      // apparent
  double radius_au = 0;
  // What they were made of.
  double earth_longitude_deg = 0;  // heliocentric, 0 to 360
  double earth_latitude_deg = 0;
  double nutation_longitude_deg = 0;
  double nutation_obliquity_deg = 0;
  double obliquity_deg = 0;  // true
};

// At a Julian ephemeris day (terrestrial time).
[[nodiscard]] SunPlace sun_place(double ephemeris_jd);

// Apparent sidereal time at Greenwich, 0 to 360, at a Julian day of universal time. Meeus ch. 12; NREL 3.8.
[[nodiscard]] double sidereal_deg(double universal_jd, double nutation_longitude_deg, double obliquity_deg);

// Apparent less mean solar time in minutes. NREL A.1; Meeus ch. 28.
[[nodiscard]] double equation_of_time_min(double ephemeris_jd);

// Terrestrial less universal time in seconds, for years from 1986 to 2150. Polynomials of Espenak and Meeus, "Five
// Millennium Canon of Solar Eclipses", NASA/TP-2006-214141; a forecast. A second of it moves a sunset by 0.003 s.
[[nodiscard]] double delta_t_s(double year);

// Into 0 to 360.
[[nodiscard]] double turned(double degrees);

}  // namespace duskwire::almanac
