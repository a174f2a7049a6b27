// SPDX-License-Identifier: Apache-2.0
// Details of LM-63 that the reference files do not show: slot 12, tilt, openings, words of findings.
#include "light/lm63_reader.hpp"

#include <gtest/gtest.h>

#include "light/photometry_files.hpp"

namespace duskwire::light {
namespace {

std::string small_file(const std::string& first_line, const std::string& slot12, const std::string& sizes = "0 0 0") {
  return first_line + "\n[TEST] x\nTILT=NONE\n1 -1 2 2 1 1 2 " + sizes + "\n0.5 " + slot12 + " 5\n0 90\n0\n100 50\n";
}

double first_cd(const std::string& text) {
  const ReadIntensities read = read_lm63(text);
  EXPECT_TRUE(read.file);
  return read.file ? read.file->distribution.intensity_cd.at(0) : -1;
}

int count_of(Severity severity, const Problems& problems) {
  int count = 0;
  for (const Problem& problem : problems) count += problem.severity == severity ? 1 : 0;
  return count;
}

// values.md 5.1: a factor up to 1991, unused in 1995 and 2002, a code that is never multiplied in 2019.
TEST(Lm63Reader, Slot12IsAFactorOnlyUpTo1991) {
  EXPECT_DOUBLE_EQ(first_cd(small_file("a label", "0.8")), 80);
  EXPECT_DOUBLE_EQ(first_cd(small_file("IESNA91", "0.8")), 80);
  EXPECT_DOUBLE_EQ(first_cd(small_file("IESNA:LM-63-1995", "0.8")), 100);
  EXPECT_DOUBLE_EQ(first_cd(small_file("IESNA:LM-63-2002", "0.8")), 100);
  EXPECT_DOUBLE_EQ(first_cd(small_file("IES:LM-63-2019", "1.10100")), 100);
  EXPECT_EQ(count_of(Severity::warning, read_lm63(small_file("IESNA:LM-63-2002", "0.8")).problems), 1);
}

TEST(Lm63Reader, NamesHowAFileOf2019CameAbout) {
  EXPECT_EQ(file_origin_2019(1.0001), "computer simulation");
  EXPECT_EQ(file_origin_2019(1.10100), "test by an accredited laboratory, lumens scaled");
  EXPECT_EQ(file_origin_2019(1.00001), "undefined");
  EXPECT_EQ(file_origin_2019(0.9), "");
}

// values.md 5.1: geometry 1 at 40 degrees 0.9167, geometry 3 at 45 degrees 0.85.
TEST(Lm63Reader, TiltFactorsAreLinearBetweenTheirAngles) {
  const auto first = reference_intensities("photometry/ies/c-quadrant-tilt-include-geom1-2019.ies");
  const auto third = reference_intensities("photometry/ies/c-quadrant-tilt-include-geom3-2019.ies");
  EXPECT_EQ(first.lamp_tilt->geometry, 1);
  EXPECT_NEAR(tilt_factor(*first.lamp_tilt, 40), 0.9167, 5e-5);
  EXPECT_EQ(third.lamp_tilt->geometry, 3);
  EXPECT_NEAR(tilt_factor(*third.lamp_tilt, 45), 0.85, 1e-12);
  EXPECT_EQ(tilt_factor(*third.lamp_tilt, 150), 0.55);
}

OpeningShape shape_of(const char* edition, const char* sizes) {
  return read_lm63(small_file(edition, "1", sizes)).file->opening.shape;
}

// Signs of 1995: values.md 5.1 (seen in test files of a public viewer).
TEST(Lm63Reader, SignsNameTheOpening) {
  const char* edition = "IESNA:LM-63-1995";
  EXPECT_EQ(shape_of(edition, "0 0 0"), OpeningShape::point);
  EXPECT_EQ(shape_of(edition, "0.3 0.2 0"), OpeningShape::rectangle);
  EXPECT_EQ(shape_of(edition, "-0.3 0 0"), OpeningShape::round);
  EXPECT_EQ(shape_of(edition, "-0.3 0 -0.3"), OpeningShape::sphere);
  EXPECT_EQ(shape_of(edition, "-0.3 0 0.1"), OpeningShape::upright_cylinder);
  EXPECT_EQ(shape_of(edition, "0 0.12 -0.34"), OpeningShape::lying_cylinder_along);
  EXPECT_EQ(shape_of(edition, "0.12 0 -0.34"), OpeningShape::lying_cylinder_across);
  EXPECT_EQ(shape_of(edition, "-0.3 0.2 0.1"), OpeningShape::upright_elliptic_cylinder);
  EXPECT_EQ(shape_of(edition, "0.3 -0.2 -0.1"), OpeningShape::ellipsoid);
}

TEST(Lm63Reader, FeetBecomeMetres) {
  const auto file = reference_intensities("photometry/ies/c1-feet-1995.ies");
  EXPECT_NEAR(file.opening.width_m, 0.12 * 0.3048, 1e-12);
  EXPECT_NEAR(file.opening.height_m, 0.56 * 0.3048, 1e-12);
}

TEST(Lm63Reader, MoreContinuesAKeyword) {
  const auto file = reference_intensities("photometry/ies/c1-opening-hcyl-length-1995.ies");
  EXPECT_EQ(file.keywords.at(4).name, "LUMINAIRE");
  EXPECT_EQ(
      file.keywords.at(4).text,
      "Dummy IES file.\nCan be used for example for testing the software, create screenshots, etc.\nLicensed under "
      "MIT License");
}

TEST(Lm63Reader, LabelsInLatin1AreKeptAsUtf8) {
  const ReadIntensities read =
      read_lm63(small_file("Gartenleuchte gr\xFC"
                           "n",
                           "1"));
  EXPECT_EQ(read.file->keywords.at(0).text,
            "Gartenleuchte gr\xC3\xBC"
            "n");
}

TEST(Lm63Reader, TellsEveryWrongNumberOfTheHead) {
  const ReadIntensities read = read_lm63("IESNA91\nTILT=NONE\n1 -1 0 2.5 1 4 3 0 0 0\n0 1 5\n0 90\n0\n1 1\n");
  EXPECT_FALSE(read.file);
  EXPECT_EQ(count_of(Severity::error, read.problems), 5);  // multiplier, count, type, unit, ballast factor
}

TEST(Lm63Reader, ALumenSumAboveTheLampsIsAWarning) {
  std::string text = small_file("IESNA91", "1");
  text.replace(text.find("1 -1"), 4, "1 10");
  EXPECT_EQ(count_of(Severity::warning, read_lm63(text).problems), 1);
}

TEST(Lm63Reader, ATextFarTooLongIsRefusedUnread) {
  const ReadIntensities read = read_lm63(std::string(5'000'000, '1'));
  EXPECT_FALSE(read.file);
  EXPECT_EQ(read.problems.size(), 1u);
}

TEST(Lm63Reader, IntensitiesInAnotherUnitAreAWarning) {
  const ReadIntensities read = read_lm63(reference_bytes("photometry/ies/c-full-0-360-measured-2002-mW.ies"));
  EXPECT_EQ(count_of(Severity::warning, read.problems), 1);
}

TEST(Lm63Reader, ATextOfNoLinesIsRefused) {
  EXPECT_FALSE(read_lm63("").file);
  EXPECT_FALSE(read_lm63("\xEF\xBB\xBF").file);
}

}  // namespace
}  // namespace duskwire::light
