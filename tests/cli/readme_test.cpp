// SPDX-License-Identifier: Apache-2.0
// What README and guide show as output is what the program prints: every block that begins with "$ duskwire" is run.
#include <gtest/gtest.h>

#include <algorithm>
#include <sstream>
#include <string>
#include <vector>

#include "program.hpp"

namespace duskwire::cli {
namespace {

struct Block {
  std::string line;    // the command
  std::string output;  // what the page shows below it
};

// Fenced blocks whose first line is "$ duskwire ...". A line "..." stands for any number of lines left out.
std::vector<Block> blocks_of(const std::string& page) {
  std::vector<Block> blocks;
  std::istringstream lines(page);
  bool inside = false;
  bool shown = false;
  for (std::string line; std::getline(lines, line);) {
    if (line.rfind("```", 0) == 0) {
      inside = !inside;
      shown = false;
    } else if (inside && line.rfind("$ duskwire ", 0) == 0) {
      blocks.push_back({line.substr(2), ""});
      shown = true;
    } else if (inside && shown) {
      blocks.back().output += line + "\n";
    }
  }
  return blocks;
}

using Lines = std::vector<std::string>;

Lines lines_of(const std::string& text) {
  Lines lines;
  std::istringstream stream(text);
  for (std::string line; std::getline(stream, line);) lines.push_back(line);
  return lines;
}

// True where `shown` is `printed` with whole lines left out at each "...": its pieces occur in order, the first at the
// beginning, the last at the end.
bool matches(const Lines& shown, const Lines& printed) {
  auto from = shown.begin();
  auto at = printed.begin();
  while (true) {
    const auto to = std::find(from, shown.end(), "...");
    const bool last = to == shown.end();
    auto found = from == shown.begin() ? at : std::search(at, printed.end(), from, to);
    if (last && from != shown.begin()) found = printed.end() - std::min(printed.end() - at, to - from);
    if (printed.end() - found < to - from || !std::equal(from, to, found)) return false;
    at = found + (to - from);
    if (last) return at == printed.end();
    from = to + 1;
  }
}

TEST(ShownOutput, MayLeaveLinesOutOnlyWhereItSaysSo) {
  const Lines printed = {"a", "b", "c", "d"};
  EXPECT_TRUE(matches({"a", "b", "c", "d"}, printed));
  EXPECT_TRUE(matches({"a", "...", "d"}, printed));
  EXPECT_TRUE(matches({"...", "c", "d"}, printed));
  EXPECT_TRUE(matches({"a", "b", "..."}, printed));
  EXPECT_TRUE(matches({"a", "...", "c", "..."}, printed));
  EXPECT_FALSE(matches({"a", "b"}, printed));
  EXPECT_FALSE(matches({"b", "...", "d"}, printed));
  EXPECT_FALSE(matches({"a", "...", "x", "...", "d"}, printed));
  EXPECT_FALSE(matches({"a", "...", "c"}, printed));
  EXPECT_FALSE(matches({}, printed));
}

class Shown : public ::testing::TestWithParam<std::string> {};

TEST_P(Shown, IsWhatTheProgramPrints) {
  const Workplace place;
  const std::vector<Block> blocks = blocks_of(project_file(GetParam()));
  EXPECT_FALSE(blocks.empty());
  for (const Block& block : blocks) {
    const Run run = place.run(block.line);
    EXPECT_NE(run.code, 2) << block.line << run.complaint;
    EXPECT_TRUE(matches(lines_of(block.output), lines_of(run.text))) << block.line << "\nprints\n"
                                                                     << run.text << "\nshown\n"
                                                                     << block.output;
  }
}

INSTANTIATE_TEST_SUITE_P(Pages, Shown, ::testing::Values("README.md", "docs/guide.md"), [](const auto& info) {
  return info.param == "README.md" ? std::string("Readme") : std::string("Guide");
});

}  // namespace
}  // namespace duskwire::cli
