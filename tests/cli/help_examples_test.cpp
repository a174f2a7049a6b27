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

// A server stays until it is told to end: it is told once it has said where it listens, and ends well.
std::string told_to_end(const std::string& line) {
  return "rm -f served.txt; " + line +
         " > served.txt & served=$!; tries=0; "
         "until grep -qs http served.txt || [ $tries -ge 600 ]; do sleep 0.1; tries=$((tries + 1)); done; "
         "kill -TERM $served; wait $served";
}

TEST(HelpExamples, EachLineEndsAsItsPageSays) {
  const Workplace place;
  for (const std::string& name : command_names()) {
    for (const Shown& shown : shown_on(place.run("duskwire " + name + " --help").text)) {
      const Ended run = place.run(name == "serve" ? told_to_end(shown.line) : shown.line);
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
