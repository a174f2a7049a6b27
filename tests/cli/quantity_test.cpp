// SPDX-License-Identifier: Apache-2.0
#include "cli/quantity.hpp"

#include <gtest/gtest.h>

namespace duskwire::cli {
namespace {

TextStyle in(job::DisplayUnits units) {
  TextStyle style;
  style.units = units;
  return style;
}

TEST(Quantity, LengthsFollowTheUnits) {
  EXPECT_EQ(length(30, in(job::DisplayUnits::metric)), "30.0 m");
  EXPECT_EQ(length(30, in(job::DisplayUnits::us)), "98 ft");         // 30 / 0.3048 = 98.425
  EXPECT_EQ(length(1.5, in(job::DisplayUnits::us)), "4.9 ft");       // 4.921
  EXPECT_EQ(short_length(0.15, in(job::DisplayUnits::us)), "6 in");  // 5.906
  EXPECT_EQ(short_length(0.45, in(job::DisplayUnits::metric)), "450 mm");
  EXPECT_EQ(short_length(3.05, in(job::DisplayUnits::metric)), "3.05 m");
  EXPECT_EQ(short_length(3.048, in(job::DisplayUnits::us)), "10 ft");
  EXPECT_EQ(temperature(40, in(job::DisplayUnits::us)), "104 °F");
}

TEST(Quantity, NoMinusStandsBeforeZero) {
  EXPECT_EQ(number(-0.001, 2), "0.00");
  EXPECT_EQ(number(-0.006, 2), "-0.01");
}

TEST(Quantity, MoneyIsWholeMinorUnits) {
  EXPECT_EQ(money(126530, "USD"), "1265.30 USD");
  EXPECT_EQ(money(-5, "USD"), "-0.05 USD");
  EXPECT_EQ(money(1200, "JPY"), "1200 JPY");
}

TEST(Quantity, ReadsLengthsInBothUnits) {
  EXPECT_DOUBLE_EQ(read_length_m("60m", job::DisplayUnits::us).value(), 60);
  EXPECT_DOUBLE_EQ(read_length_m(" 18.5 m ", job::DisplayUnits::us).value(), 18.5);
  EXPECT_DOUBLE_EQ(read_length_m("200ft", job::DisplayUnits::metric).value(), 60.96);
  EXPECT_DOUBLE_EQ(read_length_m("200'", job::DisplayUnits::metric).value(), 60.96);
  EXPECT_DOUBLE_EQ(read_length_m("10", job::DisplayUnits::metric).value(), 10);
  EXPECT_DOUBLE_EQ(read_length_m("10", job::DisplayUnits::us).value(), 3.048);
}

TEST(Quantity, RefusesLengthsThatAreNone) {
  for (const char* text : {"", "m", "-3m", "12 yards", "nan", "inf m", "1e999m"}) {
    const Result<double> met = read_length_m(text, job::DisplayUnits::metric);
    ASSERT_FALSE(met.ok()) << text;
    EXPECT_NE(met.error().message.find("a length such as"), std::string::npos);
  }
}

TEST(Quantity, ReadsConductorSizes) {
  const ConductorSize gauge = read_conductor_size("12 AWG").value();
  EXPECT_NEAR(gauge.area_mm2, 3.3088, 0.0001);  // ASTM B258: 80.81 mil diameter
  EXPECT_EQ(conductor_size(gauge), "12 AWG");
  EXPECT_EQ(conductor_size(read_conductor_size("2.5mm2").value()), "2.5 mm²");
  EXPECT_EQ(conductor_size(read_conductor_size("2.5 mm²").value()), "2.5 mm²");
  for (const char* text : {"12", "awg", "-2awg", "0mm2", "40awg", "12 AWGS"}) {
    EXPECT_FALSE(read_conductor_size(text).ok()) << text;
  }
}

TEST(Quantity, ReadsWindows) {
  EXPECT_EQ(read_window("10:15").value().min_v, 10);
  EXPECT_EQ(read_window("10.8-15 V").value().max_v, 15);
  for (const char* text : {"", "10", "15:10", "10:", "a:b", "10:15:20", "-1:5"})
    EXPECT_FALSE(read_window(text).ok()) << text;
}

}  // namespace
}  // namespace duskwire::cli
