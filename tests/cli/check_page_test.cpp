// SPDX-License-Identifier: Apache-2.0
#include "cli/check_page.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <sstream>

#include "cli/text_width.hpp"
#include "sample_report.hpp"

namespace duskwire::cli {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;
using ::testing::StartsWith;

TextStyle wide(int width) {
  TextStyle style;
  style.width = width;
  return style;
}

std::string text_of(const study::Report& report, Detail detail = Detail::usual, const TextStyle& style = {}) {
  const job::Job job = sample::job();
  const study::Ruleset ruleset = sample::ruleset();
  return check_text({job, report, ruleset}, detail, style);
}

TEST(CheckPage, BeginsWithTheVerdictAndTheWorstLamp) {
  EXPECT_THAT(text_of(sample::report()),
              StartsWith("Not sound: 1 error, no warnings.\n"
                         "Lowest lamp: L2 (Oak, from the far side of the lawn) sees 9.62 V at worst; its\n"
                         "window is 10 to 15 V.\n"));
}

TEST(CheckPage, SaysSoundOnlyWhereTheReportDoes) {
  study::Report report = sample::report();
  report.findings.clear();
  report.sound = true;
  EXPECT_THAT(text_of(report), StartsWith("Sound: no errors, no warnings.\n"));
  EXPECT_THAT(text_of(report), Not(HasSubstr("Findings")));
}

TEST(CheckPage, AJobWithoutLampsSaysSo) {
  study::Report report;
  report.sound = true;
  EXPECT_THAT(text_of(report), HasSubstr("There are no lamps in this job yet."));
}

TEST(CheckPage, TellsStateInWordsAndShowsVoltsInsideTheWindow) {
  EXPECT_THAT(text_of(sample::report()), HasSubstr("9.62–11.30"));
  EXPECT_THAT(text_of(sample::report()), HasSubstr("low at worst"));
  EXPECT_THAT(text_of(sample::report()), HasSubstr("│"));
}

TEST(CheckPage, AShortThatWouldNotTripIsCalledTooLow) {
  EXPECT_THAT(text_of(sample::report()), HasSubstr("19.8 A too low"));
  study::Report report = sample::report();
  report.outputs[0].far_short_a = 54;
  EXPECT_THAT(text_of(report), HasSubstr("54.0 A trips"));
}

TEST(CheckPage, EveryFindingHasItsPlaceMeasureSourceAndCure) {
  EXPECT_THAT(text_of(sample::report()),
              HasSubstr("  1. error  L2 falls to 9.62 V at worst, below the 10 V that its maker asks for.\n"
                        "     where    L2 (Oak, from the far side of the lawn)\n"
                        "     measured 9.62 V, limit 10.00 V\n"
                        "     why      window of the item [computed]\n"
                        "     cure     Set output T1-A to its 14 V tap: L2 then sees 10.71 V at worst.\n"
                        "     or       Pull 10 AWG instead of 12 AWG from T1-A to J1.\n"));
}

TEST(CheckPage, StatesWhatItRestsOn) {
  const std::string text = text_of(sample::report());
  EXPECT_THAT(text, HasSubstr("mains 114 to 126 V (120 V ±5 %), cable at 0 °C to 40 °C"));
  EXPECT_THAT(text, HasSubstr("licensed electrician decide"));
  TextStyle us;
  us.units = job::DisplayUnits::us;
  EXPECT_THAT(text_of(sample::report(), Detail::usual, us), HasSubstr("cable at 32 °F to 104 °F"));
}

TEST(CheckPage, FitsItsWidth) {
  for (const int width : {60, 80, 100, 108, 124, 140}) {
    std::istringstream lines(text_of(sample::report(), Detail::full, wide(width)));
    for (std::string line; std::getline(lines, line);) {
      // Below 80 columns numbers are kept whole and may stand out.
      EXPECT_LE(display_width(line), std::max(width, 80)) << line;
    }
  }
}

TEST(CheckPage, BriefLeavesTheLampsOut) {
  EXPECT_THAT(text_of(sample::report(), Detail::brief), Not(HasSubstr("9.62–11.30")));
  EXPECT_THAT(text_of(sample::report(), Detail::brief), HasSubstr("Findings"));
}

}  // namespace
}  // namespace duskwire::cli
