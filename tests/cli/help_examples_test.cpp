// SPDX-License-Identifier: Apache-2.0
// Every example line of every help page, run as it stands.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <sstream>

#include "cli/parse.hpp"
#include "program.hpp"

namespace duskwire::cli {
namespace {

struct Shown {
  std::string line;
  int code = 0;
};

// Lines below "Examples" that begin with the program's name; a note "# exit N..." above a line states how it ends.
std::vector<Shown> shown_on(const std::string& page) {
  std::vector<Shown> shown;
  std::istringstream lines(page);
  bool inside = false;
  int code = 0;
  for (std::string line; std::getline(lines, line);) {
    if (line == "Examples") inside = true;
    if (!inside) continue;
    const std::string note = "  # exit ";
    if (line.rfind(note, 0) == 0) code = std::stoi(line.substr(note.size()));
    if (line.rfind("  duskwire ", 0) != 0) continue;
    shown.push_back({line.substr(2), code});
    code = 0;
  }
  return shown;
}

TEST(HelpExamples, EveryCommandShowsTwoToFour) {
  const Workplace place;
  for (const std::string& name : command_names()) {
    const auto shown = shown_on(place.run("duskwire " + name + " --help").text);
    EXPECT_GE(shown.size(), 2u) << name;
    EXPECT_LE(shown.size(), 4u) << name;
  }
}

TEST(HelpExamples, EachLineEndsAsItsPageSays) {
  const Workplace place;
  for (const std::string& name : command_names()) {
    for (const Shown& shown : shown_on(place.run("duskwire " + name + " --help").text)) {
      // A server stays until it is told to end: it is told after a second, and ends well.
      const std::string told = name == "serve" ? "timeout --preserve-status --signal=TERM 1 " : "";
      const Ended run = place.run(told + shown.line);
      EXPECT_EQ(run.code, shown.code) << shown.line << "\n" << run.complaint;
      EXPECT_EQ(run.complaint, "") << shown.line;
    }
  }
}

TEST(HelpExamples, TheOverviewShowsLinesThatRun) {
  const Workplace place;
  const auto shown = shown_on(place.run("duskwire --help").text);
  ASSERT_GE(shown.size(), 2u);
  for (const Shown& line : shown) EXPECT_EQ(place.run(line.line).code, line.code) << line.line;
}

}  // namespace
}  // namespace duskwire::cli
