// SPDX-License-Identifier: Apache-2.0
#include "formats/json_text.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "formats/documents.hpp"

namespace duskwire::formats {
namespace {

Problem only_problem(const ParsedText& parsed) {
  EXPECT_EQ(parsed.problems.size(), 1u) << told(parsed.problems);
  return parsed.problems.empty() ? Problem{} : parsed.problems[0];
}

std::string again(const std::string& text) { return compact_text(*parse_text(text).tree); }

TEST(JsonText, KeepsTheOrderOfKeys) {
  EXPECT_EQ(again(R"({"b":1,"a":{"d":[],"c":{}}})"), R"({"b":1,"a":{"d":[],"c":{}}})");
}

TEST(JsonText, NumbersAreTheShortestThatReadBackTheSame) {
  EXPECT_EQ(again("[12.0, 0.1, 1e2, 1e300, -0.0, 0.30000000000000004, 18446744073709551615, -9223372036854775808]"),
            "[12,0.1,100,1e+300,0,0.30000000000000004,18446744073709551615,-9223372036854775808]");
}

TEST(JsonText, WhatCannotBeANumberIsNull) {
  EXPECT_EQ(compact_text(Json::array({std::numeric_limits<double>::infinity(), std::nan("")})), "[null,null]");
}

TEST(JsonText, EscapesWhatMustBeEscaped) {
  EXPECT_EQ(compact_text(Json("a\"\\\n\r\t\x01\x7F\xC3\xA4/")), "\"a\\\"\\\\\\n\\r\\t\\u0001\\u007f\xC3\xA4/\"");
}

TEST(JsonText, IllFormedTextIsWrittenWellFormed) { EXPECT_EQ(compact_text(Json("a\xFF")), "\"a\xEF\xBF\xBD\""); }

TEST(JsonText, ListsOfNumbersStayOnOneLine) {
  EXPECT_EQ(indented_text(Json::parse(R"({"path":[[0,1.5],[2,3]],"names":["a"],"none":[],"empty":{}})")),
            "{\n  \"path\": [\n    [0, 1.5],\n    [2, 3]\n  ],\n  \"names\": [\n    \"a\"\n  ],\n  \"none\": [],\n"
            "  \"empty\": {}\n}");
}

TEST(JsonText, AKeyThatComesTwiceIsToldAndKeepsItsFirstValue) {
  const ParsedText parsed = parse_text(R"({"a":[{"x":1,"y":2,"x":{"deep":[1,2]}}]})");
  const Problem problem = only_problem(parsed);
  EXPECT_EQ(problem.pointer, "/a/0/x");
  EXPECT_EQ(problem.value, "x");
  EXPECT_EQ(compact_text(*parsed.tree), R"({"a":[{"x":1,"y":2}]})");
}

TEST(JsonText, TheSameKeyInTwoObjectsIsFine) { EXPECT_TRUE(parse_text(R"([{"a":1},{"a":2}])").problems.empty()); }

TEST(JsonText, BrokenTextIsToldWithLineAndColumn) {
  const ParsedText parsed = parse_text("{\n  \"a\": 1,\n  \"b\": tru\n}");
  EXPECT_FALSE(parsed.tree);
  const Problem problem = only_problem(parsed);
  EXPECT_EQ(problem.pointer, "/b");
  EXPECT_NE(problem.message.find("line 3, column 11 "), std::string::npos) << problem.message;
  EXPECT_EQ(problem.message.find("json.exception"), std::string::npos) << problem.message;
}

TEST(JsonText, WhatIsNotJsonIsRefused) {
  for (const char* bad : {"", " ", "{", "[1,]", "{\"a\":1,}", "NaN", "[Infinity]", "// x\n1", "1 2", "\"\xFF\"",
                          "\"\n\"", "\"\\ud800\"", "[1e999]", "[-1e999]", "{a:1}", "'a'", "\x00"}) {
    const ParsedText parsed = parse_text(bad);
    EXPECT_FALSE(parsed.tree) << bad;
    EXPECT_EQ(parsed.problems.size(), 1u) << bad;
  }
}

TEST(JsonText, NothingHidesBehindAZeroByte) {
  using namespace std::string_view_literals;
  for (const std::string_view bad : {"[1]\0[2]"sv, "[1]\0"sv, "\0[1]"sv, "[\n1,\0 2]"sv}) {
    const ParsedText parsed = parse_text(bad);
    EXPECT_FALSE(parsed.tree);
    ASSERT_EQ(parsed.problems.size(), 1u);
    EXPECT_NE(parsed.problems[0].message.find("zero byte"), std::string::npos) << parsed.problems[0].message;
  }
  EXPECT_NE(parse_text("[1]\n \0"sv).problems[0].message.find("line 2, column 2"), std::string::npos);
}

TEST(JsonText, ANumberTooLargeIsToldWithItsPlace) {
  const Problem problem = only_problem(parse_text(R"({"length_m": 1e999})"));
  EXPECT_EQ(problem.pointer, "/length_m");
  EXPECT_EQ(problem.value, "1e999");
}

TEST(JsonText, IllFormedUtf8InAMessageIsMadeFitToShow) {
  const Problem problem = only_problem(parse_text("[\"a\xFF\"]"));
  EXPECT_EQ(problem.value.find('\xFF'), std::string::npos);
  EXPECT_EQ(problem.message.find('\xFF'), std::string::npos);
}

TEST(JsonText, AByteOrderMarkIsPassedOver) { EXPECT_TRUE(parse_text("\xEF\xBB\xBF[1]").tree); }

TEST(JsonText, DepthIsBounded) {
  EXPECT_TRUE(parse_text(std::string(64, '[') + std::string(64, ']')).tree);
  EXPECT_FALSE(parse_text(std::string(65, '[') + std::string(65, ']')).tree);
  const Problem problem = only_problem(parse_text(std::string(1'000'000, '[')));
  EXPECT_EQ(problem.expected, "at most 64 levels");
}

TEST(JsonText, SizeIsBounded) {
  EXPECT_EQ(only_problem(parse_text("[1,2,3,4]", {.bytes = 8})).expected, "at most 8 bytes");
  EXPECT_EQ(only_problem(parse_text("[1,2,3,4]", {.values = 3})).expected, "at most 3 values");
  EXPECT_EQ(only_problem(parse_text(R"({"a":1,"b":2})", {.keys_per_object = 1})).expected,
            "at most 1 keys in an object");
}

TEST(JsonText, PointersAreEscaped) {
  EXPECT_EQ(pointer_part("a/b~c"), "a~1b~0c");
  EXPECT_EQ(only_problem(parse_text(R"({"a/b":{"c~":1,"c~":2}})")).pointer, "/a~1b/c~0");
}

TEST(JsonText, ManyDuplicateKeysDoNotFillTheMemory) {
  std::string text = "{";
  for (int i = 0; i < 5000; ++i) text += "\"a\":1,";
  EXPECT_EQ(parse_text(text + "\"b\":2}").problems.size(), 1000u);
}

}  // namespace
}  // namespace duskwire::formats
