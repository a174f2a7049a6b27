// SPDX-License-Identifier: Apache-2.0
// Every row of tests/reference/conductors.csv against the AWG law, the copper of IACS and its temperature coefficient.
#include <gtest/gtest.h>

#include <cmath>
#include <map>

#include "base/units.hpp"
#include "electrical/conductor.hpp"
#include "reference_rows.hpp"

namespace duskwire::electrical {
namespace {

// Stranded over solid of one gauge, NEC chapter 9 table 8: 1.018 to 1.025 by the pairs of the table itself.
constexpr double stranded_over_solid = 1.02;

void expect_within_pct(double value, double expected, double tolerance_pct) {
  EXPECT_NEAR(value, expected, std::abs(expected) * tolerance_pct / 100);
}

double copper_ohm_per_km(double area_mm2, double temperature_c) {
  return 1000 * copper_ohm_per_m_20c(area_mm2) * copper_temperature_factor(temperature_c);
}

void check_awg_geometry(const ReferenceRow& row) {
  const double gauge = row.number("size");
  if (row.has("area_mm2")) expect_within_pct(units::area_mm2_from_awg(gauge), row.number("area_mm2"), 0.01);
  if (row.has("diameter_mm")) expect_within_pct(units::diameter_mm_from_awg(gauge), row.number("diameter_mm"), 0.05);
  // Printed tables round to 10 cmil, ASTM B258 rounds the diameter to 0.1 mil.
  expect_within_pct(units::area_mm2_from_awg(gauge) / units::mm2_per_cmil, row.number("circular_mils"), 0.3);
}

void check_awg_resistance(const ReferenceRow& row) {
  const double temperature_c = row.number("temp_c");
  const bool rounded_diameter = row.text("id").find("-hb100-") != std::string::npos;
  const double area_mm2 = rounded_diameter ? row.number("circular_mils") * units::mm2_per_cmil
                                           : units::area_mm2_from_awg(row.number("size"));
  const double strand = row.text("strand") == "stranded7" ? stranded_over_solid : 1;
  expect_within_pct(strand * copper_ohm_per_km(area_mm2, temperature_c), row.number("ohm_per_km"),
                    row.number("tol_pct"));
}

TEST(ReferenceConductors, AwgRowsFollowTheGaugeLawAndIacsCopper) {
  int rows = 0;
  for (const ReferenceRow& row : reference_rows("conductors.csv")) {
    if (row.text("system") != "AWG") continue;
    SCOPED_TRACE(row.text("id"));
    check_awg_geometry(row);
    check_awg_resistance(row);
    ++rows;
  }
  EXPECT_EQ(rows, 30);
}

// IEC 60228 gives a maximum: more than ideal copper of that area, by at most a sixth for these classes.
TEST(ReferenceConductors, MetricRowsLieAboveIdealCopperAndWarmByItsCoefficient) {
  std::map<std::string, double> cold_ohm_per_km;
  int rows = 0;
  for (const ReferenceRow& row : reference_rows("conductors.csv")) {
    if (row.text("system") != "mm2") continue;
    SCOPED_TRACE(row.text("id"));
    const double ohm_per_km = row.number("ohm_per_km");
    const double ideal_ohm_per_km = copper_ohm_per_km(row.number("area_mm2"), row.number("temp_c"));
    EXPECT_GT(ohm_per_km, ideal_ohm_per_km);
    EXPECT_LT(ohm_per_km, ideal_ohm_per_km * 7 / 6);
    const std::string cable = row.text("size") + row.text("strand");
    if (row.number("temp_c") == 20) {
      cold_ohm_per_km[cable] = ohm_per_km;
    } else {
      expect_within_pct(cold_ohm_per_km.at(cable) * copper_temperature_factor(row.number("temp_c")), ohm_per_km,
                        row.number("tol_pct"));
    }
    ++rows;
  }
  EXPECT_EQ(rows, 24);
}

// Half of the last digit of either column: the table of the code has three decimals.
TEST(ReferenceConductors, BothLengthUnitsOfARowAgreeByTheExactFoot) {
  for (const ReferenceRow& row : reference_rows("conductors.csv")) {
    SCOPED_TRACE(row.text("id"));
    const double from_km = row.number("ohm_per_km") * units::m_per_ft;
    EXPECT_NEAR(from_km, row.number("ohm_per_1000ft"), 0.0005 * units::m_per_ft + 0.00005);
  }
}

}  // namespace
}  // namespace duskwire::electrical
