// SPDX-License-Identifier: Apache-2.0
// `duskwire levels --photometry FILE` as it is typed.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "program.hpp"

namespace duskwire::cli {
namespace {

using testing::HasSubstr;

const std::string reference = DUSKWIRE_SOURCE_DIR "/tests/reference/photometry/";

Ended look_at(const std::string& file, const std::string& more = "") {
  const Workplace place;
  return place.run("duskwire levels --photometry " + reference + file + " " + more);
}

// 1000 cd, cos^4: 1256.6 lm, beam 65.5, field 111.6 degrees (values.md 5.3).
TEST(PhotometryCommand, TellsFluxBeamZonesAndRatings) {
  const Ended run = look_at("made-here/cos4-1000cd.ies");
  EXPECT_EQ(run.code, 0) << run.complaint;
  EXPECT_THAT(run.text, HasSubstr("1257 lm, 100 % down, 0 % up"));
  EXPECT_THAT(run.text, HasSubstr("65.5"));
  EXPECT_THAT(run.text, HasSubstr("111.6"));
  EXPECT_THAT(run.text, HasSubstr("Zonal lumens"));
  EXPECT_THAT(run.text, HasSubstr("Backlight, uplight, glare: B1 U0 G0"));
  EXPECT_THAT(run.text, HasSubstr("from memory"));
}

TEST(PhotometryCommand, DrawsOneCurveForWhatIsEvenAndTwoForWhatIsNot) {
  EXPECT_THAT(look_at("made-here/lambert-1000cd.ies").text, HasSubstr("C 90 and C 270 look the same"));
  EXPECT_THAT(look_at("made-here/bilateral-0-180.ies").text, HasSubstr("x C 270 (left) and C 90 (right)"));
}

TEST(PhotometryCommand, GivesTheSameAsJson) {
  const Ended run = look_at("made-here/cos4-1000cd.ies", "--json");
  EXPECT_EQ(run.code, 0);
  EXPECT_THAT(run.text, HasSubstr("\"source\": \"LM-63-1995\""));
  EXPECT_THAT(run.text, HasSubstr("\"flux_lm\": 1256.7"));
}

TEST(PhotometryCommand, NamesEveryFindingOfAFileThatCannotBeUsed) {
  const Ended run = look_at("malformed/ies-negative-and-huge-counts.ies");
  EXPECT_EQ(run.code, 2);
  EXPECT_EQ(run.text, "");
  EXPECT_THAT(run.complaint, HasSubstr("-3"));
  EXPECT_THAT(run.complaint, HasSubstr("2000000000"));
  EXPECT_THAT(run.complaint, HasSubstr("line 4"));
}

TEST(PhotometryCommand, WritesTheLightAsLm63) {
  const Workplace place;
  const Ended first =
      place.run("duskwire levels --photometry " + reference + "ldt/isym4-measured.ldt --write-lm63 out.ies");
  EXPECT_EQ(first.code, 0) << first.complaint;
  const Ended again = place.run("duskwire levels --photometry out.ies --json");
  EXPECT_EQ(again.code, 0) << again.complaint;
  EXPECT_THAT(again.text, HasSubstr("\"source\": \"LM-63-2002\""));
  EXPECT_THAT(again.text, HasSubstr("\"symmetry\": \"quadrants\""));
  EXPECT_EQ(place.run("duskwire levels --photometry out.ies --write-lm63 out.ies").code, 2);  // not without --force
}

TEST(PhotometryCommand, NeedsOneThingToLookAt) {
  const Workplace place;
  EXPECT_EQ(place.run("duskwire levels").code, 2);
  EXPECT_EQ(place.run("duskwire levels examples/small-garden.json --photometry x.ies").code, 2);
  EXPECT_EQ(place.run("duskwire levels examples/small-garden.json --write-lm63 x.ies").code, 2);
}

}  // namespace
}  // namespace duskwire::cli
