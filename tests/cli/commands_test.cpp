// SPDX-License-Identifier: Apache-2.0
// Every command on every example, as text and as JSON, metric and US.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <sstream>

#include "cli/text_width.hpp"
#include "program.hpp"
#include "sanitizers.hpp"

namespace duskwire::cli {
namespace {

using ::testing::AnyOf;
using ::testing::Eq;
using ::testing::HasSubstr;
using ::testing::Not;
using ::testing::StartsWith;

// Under the sanitizers each command once in each way of writing: the other units, widths and colours are the same code
// again, and the release build's tests go through them.
#ifdef DUSKWIRE_UNDER_SANITIZERS
constexpr const char* units_tried[] = {" --units us"};
constexpr int columns_tried[] = {80};
constexpr bool other_terminals = false;
#else
constexpr const char* units_tried[] = {"", " --units us", " --units metric"};
constexpr int columns_tried[] = {80, 140};
constexpr bool other_terminals = true;
#endif

class Commands : public ::testing::TestWithParam<std::string> {
 protected:
  [[nodiscard]] std::string job() const { return "examples/" + GetParam(); }
  Workplace place_;
};

TEST_P(Commands, EveryCommandEndsWellAndSaysSomething) {
  for (const char* command : {"check", "check --full", "check --brief", "advise", "materials", "validate"}) {
    for (const char* units : units_tried) {
      const std::string line = std::string("duskwire ") + command + " " + job() + units;
      const Ended run = place_.run(line);
      EXPECT_THAT(run.code, AnyOf(Eq(0), Eq(1))) << line << run.complaint;
      EXPECT_NE(run.text, "") << line;
      EXPECT_EQ(run.complaint, "") << line;
      EXPECT_EQ(run.text.find("nan"), std::string::npos) << line;
    }
  }
}

TEST_P(Commands, JsonParsesAndIsTheSameWhateverTheTerminal) {
  for (const char* command : {"check", "advise", "materials", "validate"}) {
    const std::string line = std::string("duskwire ") + command + " " + job() + " --json";
    const Ended plain = place_.run(line);
    EXPECT_TRUE(nlohmann::json::accept(plain.text)) << line;
    if (!other_terminals) continue;
    EXPECT_EQ(place_.run(line + " --colour always").text, plain.text) << line;
    EXPECT_EQ(place_.run("COLUMNS=140 " + line).text, plain.text) << line;
  }
}

TEST_P(Commands, TextFitsEightyAndOneHundredAndFortyColumns) {
  for (const char* command : {"check --full", "advise", "materials", "validate"}) {
    for (const int columns : columns_tried) {
      const std::string line = "COLUMNS=" + std::to_string(columns) + " duskwire " + command + " " + job();
      std::istringstream lines(place_.run(line).text);
      for (std::string text; std::getline(lines, text);)
        EXPECT_LE(display_width(text), columns) << line << "\n" << text;
    }
  }
}

TEST_P(Commands, UnitsChangeTheTextNotTheJudgement) {
  const Ended metric = place_.run("duskwire check " + job() + " --units metric --full");
  const Ended us = place_.run("duskwire check " + job() + " --units us --full");
  EXPECT_EQ(metric.code, us.code);
  EXPECT_THAT(metric.text, HasSubstr("°C"));
  EXPECT_THAT(metric.text, Not(HasSubstr(" ft ")));
  EXPECT_THAT(us.text, HasSubstr("°F"));
  EXPECT_THAT(us.text, HasSubstr(" ft "));
}

TEST_P(Commands, ReadsTheJobFromStandardInput) {
  const Ended file = place_.run("duskwire check " + job());
  const Ended piped = place_.run("duskwire check -", project_file(job()));
  EXPECT_EQ(piped.text, file.text);
  EXPECT_EQ(piped.code, file.code);
}

TEST_P(Commands, AFileAskedForHoldsWhatTheScreenWouldShow) {
  const Ended screen = place_.run("duskwire check " + job() + " --json");
  const Ended file = place_.run("duskwire check " + job() + " --json --output report.json");
  EXPECT_EQ(place_.read("report.json"), screen.text);
  EXPECT_EQ(file.code, screen.code);
  EXPECT_EQ(file.text, "");
  EXPECT_EQ(place_.files().size(), 1u);
}

INSTANTIATE_TEST_SUITE_P(Examples, Commands, ::testing::ValuesIn(example_jobs()), [](const auto& info) {
  std::string name = info.param.substr(0, info.param.find('.'));
  std::replace(name.begin(), name.end(), '-', '_');
  return name;
});

TEST(CheckCommand, ColourComesOnlyWhereAskedFor) {
  const Workplace place;
  const std::string line = "duskwire check examples/ostrey-garden.json";
  EXPECT_EQ(place.run(line).text.find('\x1b'), std::string::npos);
  EXPECT_NE(place.run(line + " --colour always").text.find("\x1b["), std::string::npos);
  EXPECT_EQ(place.run("NO_COLOR=1 " + line).text.find('\x1b'), std::string::npos);
}

TEST(CheckCommand, WithoutUtf8TheDrawingsAreAscii) {
  const Workplace place;
  const std::string text = place.run("LC_ALL=C duskwire check examples/small-garden.json").text;
  EXPECT_THAT(text, HasSubstr("=o="));
  EXPECT_THAT(text, Not(HasSubstr("━")));
}

TEST(NewCommand, MakesAJobThatIsSoundAndOfTheFormat) {
  const Workplace place;
  for (const char* line :
       {"duskwire new", "duskwire new --lamps examples/lamps.csv --title Listed", "duskwire new --ruleset iec"}) {
    const Ended made = place.run(line);
    ASSERT_EQ(made.code, 0) << line << made.complaint;
    EXPECT_TRUE(nlohmann::json::accept(made.text)) << line;
    EXPECT_EQ(place.run("duskwire validate -", made.text).code, 0) << line;
    const Ended checked = place.run("duskwire check -", made.text);
    EXPECT_EQ(checked.code, 0) << line << checked.text;
    EXPECT_THAT(checked.text, StartsWith("Sound: no errors, no warnings")) << line;
  }
}

TEST(NewCommand, KeepsEveryLampOfTheTable) {
  const Workplace place;
  const Ended made = place.run("duskwire new --lamps examples/lamps.csv --title Listed");
  ASSERT_EQ(made.code, 0) << made.complaint;
  const nlohmann::json job = nlohmann::json::parse(made.text);
  EXPECT_EQ(job.at("title"), "Listed");
  EXPECT_EQ(job.at("luminaires").size(), 9u);
  EXPECT_EQ(job.at("luminaires").at(4).at("name"), "Pear tree, left");
}

TEST(AskCommand, EndsWithOneWhereTheLastLampLeavesItsWindow) {
  const Workplace place;
  EXPECT_EQ(place.run("duskwire ask --lamps 8 --watts 4 --length 60m --cable 12awg --tap 13").code, 0);
  EXPECT_EQ(place.run("duskwire ask --lamps 80 --watts 4 --length 200m --cable 16awg --tap 12").code, 1);
}

TEST(AskCommand, AnswersWhatWasLeftOut) {
  const Workplace place;
  const auto asked = [&](const std::string& rest) {
    return nlohmann::json::parse(place.run("duskwire ask --json " + rest).text).at("asked").get<std::string>();
  };
  EXPECT_EQ(asked("--watts 4 --length 60m --cable 12awg --tap 13"), "lamps");
  EXPECT_EQ(asked("--lamps 8 --watts 4 --cable 12awg --tap 13"), "length");
  EXPECT_EQ(asked("--lamps 8 --watts 4 --length 60m --cable 12awg"), "tap");
  EXPECT_EQ(asked("--lamps 8 --watts 4 --length 60m --tap 13"), "cable");
}

TEST(CatalogueCommand, FindsByWordAndSaysWhereThereIsNone) {
  const Workplace place;
  EXPECT_THAT(place.run("duskwire catalogue hub").text, HasSubstr("hub-box-5"));
  EXPECT_THAT(place.run("duskwire catalogue hub").text, Not(HasSubstr("path-3w")));
  EXPECT_TRUE(nlohmann::json::accept(place.run("duskwire catalogue --json").text));
  EXPECT_THAT(place.run("duskwire catalogue zeppelin").text, HasSubstr("zeppelin"));
}

}  // namespace
}  // namespace duskwire::cli
