// SPDX-License-Identifier: Apache-2.0
// Details of EULUMDAT that the table of reference files does not show.
#include "light/eulumdat_reader.hpp"

#include <gtest/gtest.h>

#include "light/photometry_files.hpp"

namespace duskwire::light {
namespace {

// The fields of a file of two lamp sets; `lines` may be changed before they are joined.
std::vector<std::string> two_set_lines(const std::string& isym, int c_count, std::vector<double> values) {
  std::vector<std::string> lines = {"maker", "3",     isym,   std::to_string(c_count),
                                    "0",     "2",     "90",   "",
                                    "name",  "no",    "file", "date",
                                    "100",   "100",   "50",   "80",
                                    "0",     "",      "",     "",
                                    "",      "100",   "100",  "1",
                                    "0",     "1",     "2",    "LED",
                                    "2000",  "3000K", "80",   "10"};
  lines.insert(lines.end(), 10, "0");
  for (int i = 0; i < c_count; ++i) lines.push_back(std::to_string(360 * i / c_count));
  lines.insert(lines.end(), {"0", "90"});
  for (const double value : values) lines.push_back(std::to_string(value));
  return lines;
}

ReadIntensities read_lines(const std::vector<std::string>& lines) {
  std::string text;
  for (const std::string& line : lines) text += line + "\r\n";
  return read_eulumdat(text);
}

double at(const ReadIntensities& read, double c_deg, double gamma_deg) {
  return intensity_cd(read.file.value().distribution, c_deg, gamma_deg);
}

TEST(Eulumdat, IntensitiesAreThoseOfTheFirstSetsLumens) {
  const ReadIntensities read = read_lines(two_set_lines("1", 1, {100, 50}));
  EXPECT_DOUBLE_EQ(at(read, 0, 0), 200);
  EXPECT_DOUBLE_EQ(read.file->lumens_per_lamp.value(), 1000);
  EXPECT_EQ(read.file->opening.shape, OpeningShape::round);
}

TEST(Eulumdat, ANegativeCountMeansAbsolutePhotometry) {
  std::vector<std::string> lines = two_set_lines("1", 1, {100, 50});
  lines[26] = "-2";
  const ReadIntensities read = read_lines(lines);
  EXPECT_DOUBLE_EQ(at(read, 0, 0), 200);
  EXPECT_FALSE(read.file->lumens_per_lamp);
}

// I(360 - C) = I(C).
TEST(Eulumdat, Symmetry2MirrorsAboutC0AndC180) {
  const ReadIntensities read = read_lines(two_set_lines("2", 4, {1, 10, 1, 20, 1, 30}));
  EXPECT_DOUBLE_EQ(at(read, 0, 90), 20);
  EXPECT_DOUBLE_EQ(at(read, 90, 90), 40);
  EXPECT_DOUBLE_EQ(at(read, 270, 90), 40);
  EXPECT_DOUBLE_EQ(at(read, 180, 90), 60);
}

// Stored from C270 up through C0 to C90; I(180 - C) = I(C).
TEST(Eulumdat, Symmetry3MirrorsAboutC90AndC270) {
  const ReadIntensities read = read_lines(two_set_lines("3", 4, {1, 10, 1, 20, 1, 30}));
  EXPECT_DOUBLE_EQ(at(read, 270, 90), 20);
  EXPECT_DOUBLE_EQ(at(read, 0, 90), 40);
  EXPECT_DOUBLE_EQ(at(read, 180, 90), 40);
  EXPECT_DOUBLE_EQ(at(read, 90, 90), 60);
}

TEST(Eulumdat, Symmetry4RepeatsAQuarter) {
  const ReadIntensities read = read_lines(two_set_lines("4", 4, {1, 10, 1, 20}));
  for (const double c_deg : {0.0, 180.0}) EXPECT_DOUBLE_EQ(at(read, c_deg, 90), 20);
  for (const double c_deg : {90.0, 270.0}) EXPECT_DOUBLE_EQ(at(read, c_deg, 90), 40);
}

TEST(Eulumdat, WithoutSymmetryTheTurnIsClosed) {
  const ReadIntensities read = read_lines(two_set_lines("0", 4, {1, 10, 1, 20, 1, 30, 1, 40}));
  EXPECT_DOUBLE_EQ(at(read, 315, 90), 50);  // between 80 at C270 and 20 at C360
}

TEST(Eulumdat, PlanesThatDoNotFitTheSymmetryAreNamed) {
  const ReadIntensities read = read_lines(two_set_lines("4", 6, {1, 10, 1, 20}));
  EXPECT_FALSE(read.file);
  EXPECT_EQ(read.problems.at(4).pointer, "line 4");
  EXPECT_EQ(read.problems.at(4).expected, "a multiple of 4");
}

TEST(Eulumdat, EmptyFieldsAreZeroWithANote) {
  const ReadIntensities read = read_lines(two_set_lines("1", 1, {100, 50}));
  EXPECT_EQ(read.problems.at(0).severity, Severity::note);
  EXPECT_EQ(read.problems.at(0).pointer, "line 18");
}

TEST(Eulumdat, AFluxThatIsNotTheStatedOneIsAWarning) {
  const ReadIntensities read = read_lines(two_set_lines("1", 1, {100, 50}));
  bool warned = false;
  for (const Problem& problem : read.problems) {
    warned = warned || (problem.severity == Severity::warning && problem.pointer == "line 23");
  }
  EXPECT_TRUE(warned);  // 2 pi (100 - 50 * 2 / pi) = 428.3 lm per 1000 lm instead of 1000
}

TEST(Eulumdat, MeasuredFilesKeepTheirStatedShares) {
  for (const char* name : {"isym0-measured-197lm", "isym0-measured-357lm", "isym0-measured-dff89",
                           "isym0-measured-uplight-dff0", "isym4-measured", "isym4-two-lamp-sets-mc144"}) {
    const ReadIntensities read = read_eulumdat(reference_bytes(std::string("photometry/ldt/") + name + ".ldt"));
    for (const Problem& problem : read.problems) EXPECT_EQ(problem.severity, Severity::note) << name << problem.message;
  }
}

TEST(Eulumdat, WhatIsTooLongOrTooBrightIsRefused) {
  const ReadIntensities bright = [] {
    std::vector<std::string> lines = two_set_lines("1", 1, {1e7, 50});
    lines[28] = "1e9";
    return read_lines(lines);
  }();
  EXPECT_FALSE(bright.file);
  ASSERT_FALSE(bright.problems.empty());
  EXPECT_NE(bright.problems.back().message.find("far above that of any lamp"), std::string::npos);
  const ReadIntensities too_long = read_eulumdat(std::string(4'000'001, '\n'));
  EXPECT_FALSE(too_long.file);
  ASSERT_EQ(too_long.problems.size(), 1u);
  EXPECT_EQ(too_long.problems[0].value, "4000001 bytes");
}

}  // namespace
}  // namespace duskwire::light
