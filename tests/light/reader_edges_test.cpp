// SPDX-License-Identifier: Apache-2.0
// Each way out of the readers of LM-63 and EULUMDAT that no file of the reference tables takes: what is said, or
// passed.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "light/intensity_reader.hpp"
#include "light/intensity_text.hpp"

namespace duskwire::light {
namespace {

using ::testing::HasSubstr;

std::string told_by(const ReadIntensities& read) {
  std::string text = read.file ? "read\n" : "refused\n";
  for (const Problem& problem : read.problems) text += problem.message + "\n";
  return text;
}

struct Case {
  std::string text;
  const char* said;
};

// Two gammas, one plane; a field is changed by its place, counted from 0.
std::string eulumdat(std::vector<std::pair<std::size_t, std::string>> changes, std::size_t lines_kept = 1000) {
  std::vector<std::string> lines = {"maker", "3",  "1",  "1",  "0",  "2",   "90",   "",      "name", "no", "file",
                                    "date",  "90", "90", "50", "80", "80",  "0",    "0",     "0",    "0",  "100",
                                    "0",     "1",  "0",  "1",  "1",  "LED", "1000", "3000K", "80",   "10"};
  lines.insert(lines.end(), 10, "0");
  lines.insert(lines.end(), {"0", "0", "90", "100", "0"});
  for (const auto& [at, text] : changes) {
    if (at < lines.size()) {
      lines[at] = text;
    } else {
      lines.push_back(text);
    }
  }
  lines.resize(std::min(lines.size(), lines_kept));
  std::string text;
  for (const std::string& line : lines) text += line + "\r\n";
  return text;
}

TEST(ReaderEdges, OfEulumdat) {
  const Case cases[] = {
      {eulumdat({}), "read"},
      {eulumdat({{22, "80"}}), "the light output ratio says 800.0"},
      {eulumdat({{21, "40"}}), "of the light goes down by the table, 40.0 % as stated"},
      {eulumdat({{23, "0"}}), "The conversion factor must be above 0"},
      {eulumdat({{28, "0"}}), "The lumens of a lamp set must be above 0"},
      {eulumdat({{28, "2e9"}}), "The lumens of a lamp set must be above 0"},
      {eulumdat({{28, "1e9"}, {45, "1e304"}}), "refused"},
      {eulumdat({{45, "1e304"}, {23, "1e9"}}), "refused"},
      {eulumdat({{45, "0"}, {21, "0"}}), "read"},
      {eulumdat({{6, "45"}}), "The step of the gamma angles is not the one stated"},
      {eulumdat({{6, "0"}}), "read"},
      {eulumdat({{99, "7"}}), "1 line is left behind the table"},
      {eulumdat({{99, "7"}, {99, "8"}}), "2 lines are left behind the table"},
      {eulumdat({{2, "9"}}), "refused"},
      {eulumdat({{26, "-2"}}), "read"},
      {std::string(intensity_text_limit_bytes + 1, ' ') + "1", ""},
  };
  for (const Case& one : cases) EXPECT_THAT(told_by(read_intensities(one.text)), HasSubstr(one.said));
}

// Cut after each line: refused, and never said to lack a factor or lumens that were cut away.
TEST(ReaderEdges, OfEulumdatThatIsCutOff) {
  for (std::size_t lines = 1; lines < 47; ++lines) {
    const std::string told = told_by(read_intensities(eulumdat({}, lines)));
    EXPECT_THAT(told, HasSubstr("refused")) << lines;
    EXPECT_EQ(told.find("must be above 0"), std::string::npos) << lines << ": " << told;
  }
  EXPECT_THAT(told_by(read_intensities(eulumdat({{25, "3"}}, 32))), HasSubstr("refused"));
}

std::string lm63(const std::string& lamps = "1 -1 2", const std::string& sizes = "0 0 0",
                 const std::string& factors = "0.5 1 5", const std::string& first = "IESNA:LM-63-2002",
                 const std::string& tilt = "TILT=NONE", const std::string& keywords = "[TEST] x\n",
                 const std::string& rest = "") {
  return first + "\n" + keywords + tilt + "\n" + lamps + " 2 1 1 2 " + sizes + "\n" + factors + "\n0 90\n0\n100 50\n" +
         rest;
}

TEST(ReaderEdges, OfLm63) {
  const char* none = "TILT=NONE";
  const char* edition = "IESNA:LM-63-2002";
  const auto with_tilt = [&](const std::string& tilt) { return lm63("1 -1 2", "0 0 0", "0.5 1 5", edition, tilt); };
  const auto with_keywords = [&](const std::string& words) {
    return lm63("1 -1 2", "0 0 0", "0.5 1 5", edition, none, words);
  };
  const Case cases[] = {
      {with_tilt("TILT=INCLUDE\n2\n2\n0 90\n1 1"), "read"},
      {with_tilt("TILT=INCLUDE\n3\n2\n0 90\n1 1"), "read"},
      {with_tilt("TILT=INCLUDE\n4\n2\n0 90\n1 1"), "The lamp's geometry behind TILT=INCLUDE"},
      {with_tilt("TILT=INCLUDE\n1\n0.5\n0 90\n1 1"), "The count of tilt angles is none"},
      {with_tilt("TILT=INCLUDE\n1\n2000000\n0 90\n1 1"), "The count of tilt angles is none"},
      {with_tilt("TILT="), "read"},
      {with_tilt("TILT NONE\nTILT=NONE"), "This line has no keyword"},
      {with_tilt("TILT=lamp.tlt"), "TILT names another file, which is not read."},
      {lm63("1 -1 2", "0 0 0", "0.5 1.00001 5", "IES:LM-63-2019", "TILT=lamp.tlt"), "LM-63-2019 knows no such files"},
      {lm63("1 -1 2", "0 0 0", "0.5 5 5", "IES:LM-63-2019"), "The file generation code is not known"},
      {lm63("1 -1 2", "0 0 0", "0.5 1 5", "IES:LM-63-2030"), "This edition of LM-63 is not known here"},
      {lm63("0 -1 2"), "The number of lamps should be 1 or more"},
      {lm63("1 -5 2"), "Lumens below zero are taken as -1"},
      {lm63("1 0 2"), "read"},
      {lm63("1 1 2"), "more than the 1 lm of the lamps inside"},
      {lm63("1 -1 0"), "The multiplier must be above 0"},
      {lm63("1 -1 2", "400 1 1"), "A luminous opening of that size is hardly meant"},
      {lm63("1 -1 2", "0 -1 0"), "The signs of the sizes name no shape"},
      {lm63("1 -1 2", "0 0 0", "0.5 1 -5"), "The watts of the file cannot be right"},
      {lm63("1 -1 2", "0 0 0", "0.5 1 2e6"), "The watts of the file cannot be right"},
      {lm63("1 -1 2", "0 0 0", "0.5 1 5", edition, none, "[TEST] x\n", "7\n"), "1 word is left behind the table"},
      {lm63("1 -1 2", "0 0 0", "0.5 1 5", edition, none, "[TEST] x\n", "7 8\n"), "2 words are left behind the table"},
      {with_keywords("[_INTENSITYUNITS] lx\n"), "another unit than candela"},
      {with_keywords("[_INTENSITYUNITS] cd\n"), "read"},
      {with_keywords("[MORE] of what\n"), "[MORE] continues nothing"},
      {with_keywords("[TEST] x\n[MORE] y\n"), "read"},
      {with_keywords("[never closed\n"), "This line has no keyword"},
      {with_keywords("[te{st~] x\n"), "read"},
  };
  for (const Case& one : cases) EXPECT_THAT(told_by(read_intensities(one.text)), HasSubstr(one.said)) << one.text;
}

TEST(ReaderEdges, OfNumbers) {
  EXPECT_EQ(number_of("+5"), 5);
  EXPECT_EQ(number_of("-5"), -5);
  EXPECT_EQ(number_of("+-5"), std::nullopt);
  EXPECT_EQ(number_of("5x"), std::nullopt);
  EXPECT_EQ(number_of("x"), std::nullopt);
  EXPECT_EQ(number_of(""), std::nullopt);
}

}  // namespace
}  // namespace duskwire::light
