// SPDX-License-Identifier: Apache-2.0
#include "zones/zone_table.hpp"

#include <gtest/gtest.h>

namespace duskwire::zones {
namespace {

TEST(ZoneTable, HasBothChangesOfAYear) {
  const Result<almanac::Zone> chicago = zone_of("America/Chicago", 2026, 2026);
  ASSERT_TRUE(chicago.ok());
  const auto changes = clock_changes(chicago.value(), 2026);
  ASSERT_EQ(changes.size(), 2u);
  // US rule since 2007: second Sunday of March, first Sunday of November, at 02:00 (Energy Policy Act of 2005).
  EXPECT_EQ(almanac::date_text(changes[0].date), "2026-03-08");
  EXPECT_EQ(changes[0].by_s, 3600);
  EXPECT_EQ(changes[0].abbreviation, "CDT");
  EXPECT_EQ(almanac::local_text(chicago.value(), changes[0].at_s), "2026-03-08T03:00:00-05:00");
  EXPECT_EQ(almanac::date_text(changes[1].date), "2026-11-01");
  EXPECT_EQ(changes[1].abbreviation, "CST");
}

TEST(ZoneTable, KnowsAZoneWithoutChanges) {
  const Result<almanac::Zone> zone = zone_of("Asia/Kathmandu", 2020, 2030);
  ASSERT_TRUE(zone.ok());
  ASSERT_EQ(zone.value().changes.size(), 1u);
  EXPECT_EQ(zone.value().changes[0].offset_s, (5 * 60 + 45) * 60);
}

TEST(ZoneTable, RefusesAnUnknownNameWithACure) {
  const Result<almanac::Zone> zone = zone_of("America/Nowhere", 2026, 2026);
  ASSERT_FALSE(zone.ok());
  EXPECT_EQ(zone.error().code, ErrorCode::not_found);
  EXPECT_NE(zone.error().message.find("\"America/Nowhere\""), std::string::npos);
  EXPECT_NE(zone.error().message.find("America/Chicago"), std::string::npos);
}

TEST(ZoneTable, RefusesYearsThatItsTableDoesNotTell) {
  EXPECT_TRUE(zone_of("Europe/Paris", last_known_year, last_known_year).ok());
  EXPECT_EQ(clock_changes(zone_of("Europe/Paris", last_known_year, last_known_year).value(), last_known_year).size(),
            2u);
  const Result<almanac::Zone> later = zone_of("Europe/Paris", last_known_year, last_known_year + 1);
  ASSERT_FALSE(later.ok());
  EXPECT_EQ(later.error().code, ErrorCode::unsupported);
}

}  // namespace
}  // namespace duskwire::zones
