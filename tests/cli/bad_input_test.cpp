// SPDX-License-Identifier: Apache-2.0
// Bad input of every kind: the program says what is wrong, on standard error, ends with 2, and leaves nothing behind.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "program.hpp"

namespace duskwire::cli {
namespace {

using ::testing::AllOf;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;

class BadInput : public ::testing::Test {
 protected:
  void expect_refused(const std::string& line, const std::string& reason, const std::string& input = "") const {
    const Ended run = place_.run(line, input);
    EXPECT_EQ(run.code, 2) << line << "\n" << run.complaint;
    EXPECT_EQ(run.text, "") << line;
    EXPECT_THAT(run.complaint, HasSubstr(reason)) << line;
    EXPECT_THAT(run.complaint, AllOf(Not(HasSubstr("terminate")), Not(HasSubstr("what()")), Not(HasSubstr(".cpp"))))
        << line;
  }

  Workplace place_;
};

TEST_F(BadInput, AFileThatIsNotThere) {
  for (const char* command : {"check", "advise", "materials", "validate"}) {
    expect_refused(std::string("duskwire ") + command + " no-such-job.json", "no-such-job.json");
  }
  expect_refused("duskwire check .", "Cannot read");
}

TEST_F(BadInput, ATextThatIsNoJob) {
  place_.write("empty.json", "");
  place_.write("words.json", "a walk in the garden");
  place_.write("list.json", "[1, 2, 3]");
  place_.write("cut.json", project_file("examples/small-garden.json").substr(0, 700));
  place_.write("bytes.json", std::string("\x00\xff\xfe\x01{", 5));
  for (const char* name : {"empty.json", "words.json", "list.json", "cut.json", "bytes.json"}) {
    for (const char* command : {"check", "validate", "advise", "materials"}) {
      const std::string line = std::string("duskwire ") + command + " " + name;
      const Ended run = place_.run(line);
      EXPECT_EQ(run.code, 2) << line;
      EXPECT_THAT(run.complaint + run.text, Not(IsEmpty())) << line;
    }
  }
}

TEST_F(BadInput, AnotherVersionIsRefusedWithASentenceThatHelps) {
  for (const char* version : {"0", "2"}) {
    std::string text = project_file("examples/small-garden.json");
    const std::string key = "\"version\": 1";
    text.replace(text.find(key), key.size(), std::string("\"version\": ") + version);
    place_.write("other.json", text);
    expect_refused("duskwire check other.json", "/version");
  }
}

TEST_F(BadInput, EveryProblemIsListedWithItsPlaceValueAndExpectation) {
  std::string text = project_file("examples/small-garden.json");
  const auto change = [&](const std::string& from, const std::string& to) {
    ASSERT_NE(text.find(from), std::string::npos) << from;
    text.replace(text.find(from), from.size(), to);
  };
  change("\"length_m\": 30", "\"length_m\": -30");
  change("\"mains_hz\": 60", "\"mains_hz\": \"sixty\"");
  change("\"tap_v\": 13", "\"tap_v\": true");
  place_.write("three.json", text);
  expect_refused("duskwire check three.json", "/cables/0/length_m");
  expect_refused("duskwire check three.json", "-30");
  expect_refused("duskwire check three.json", "/site/mains_hz");
  expect_refused("duskwire check three.json", "/transformers/0/outputs/0/tap_v");
  expect_refused("duskwire check three.json", "expected");
}

TEST_F(BadInput, ALineThatIsNotUnderstood) {
  expect_refused("duskwire", "Commands");
  expect_refused("duskwire chek examples/small-garden.json", "Did you mean check?");
  expect_refused("duskwire check", "JOB");
  expect_refused("duskwire check examples/small-garden.json --colour purple", "purple");
  expect_refused("duskwire check examples/small-garden.json --outptu x", "Did you mean --output?");
}

TEST_F(BadInput, ARulesetOrCatalogueThatIsNotThere) {
  expect_refused("duskwire check examples/small-garden.json --ruleset moon", "moon");
  expect_refused("duskwire check examples/small-garden.json --catalogue absent.json", "absent.json");
  place_.write("list.json", "[]");
  expect_refused("duskwire check examples/small-garden.json --ruleset list.json", "list.json");
  expect_refused("duskwire check examples/small-garden.json --catalogue list.json", "list.json");
}

TEST_F(BadInput, AQuestionWithTwoGapsOrNumbersOutOfRange) {
  expect_refused("duskwire ask --watts 4 --cable 12awg --tap 13", "at most one");
  expect_refused("duskwire ask --lamps 8 --length 60m --cable 12awg --tap 13", "--watts is missing");
  expect_refused("duskwire ask --lamps 2.5 --watts 4 --length 60m --cable 12awg", "whole number");
  const std::string many = "duskwire ask --lamps -1 --watts 4 --length sixty --cable thick --tap 13 --window 15:10";
  for (const char* part : {"--lamps -1", "\"sixty\"", "\"thick\"", "\"15:10\""}) expect_refused(many, part);
}

TEST_F(BadInput, ATableOfLampsThatCannotBeUsed) {
  place_.write("lamps.csv", "name,item\nOak,no-such-lamp\n");
  expect_refused("duskwire new --lamps lamps.csv", "no-such-lamp");
  place_.write("none.csv", "");
  expect_refused("duskwire new --lamps none.csv", "none.csv");
}

TEST_F(BadInput, AnExistingFileIsNotOverwritten) {
  place_.write("mine.json", "precious");
  expect_refused("duskwire check examples/small-garden.json --output mine.json", "mine.json");
  EXPECT_EQ(place_.read("mine.json"), "precious");
  EXPECT_EQ(place_.run("duskwire check examples/small-garden.json --output mine.json --force").code, 0);
  EXPECT_THAT(place_.read("mine.json"), HasSubstr("Sound"));
}

TEST_F(BadInput, NothingIsLeftBehindWhereWritingFails) {
  expect_refused("duskwire check examples/small-garden.json --output no/such/folder/x.txt", "no/such/folder/x.txt");
  EXPECT_THAT(place_.files(), IsEmpty());
}

}  // namespace
}  // namespace duskwire::cli
