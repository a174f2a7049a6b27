// SPDX-License-Identifier: Apache-2.0
#include "formats/changes_json.hpp"

#include <gtest/gtest.h>

#include "formats/documents.hpp"

namespace duskwire::formats {
namespace {

TEST(ChangesJson, AChangeIsWrittenByNames) {
  const job::Change change{job::ChangeKind::move_cable_end, "C1", "to", "S2", 0};
  EXPECT_EQ(compact_text(change_json(change)),
            R"({"kind":"move_cable_end","target":"C1","text":"to","other":"S2","number":0})");
}

TEST(ChangesJson, EveryKindComesBackEqual) {
  std::vector<job::Change> changes;
  for (int kind = 0; kind <= static_cast<int>(job::ChangeKind::set_crossed); ++kind) {
    changes.push_back({static_cast<job::ChangeKind>(kind), "C1", "12awg-2", "T1-A S1", 12.5 + kind});
  }
  const ReadChanges read = read_changes(compact_text(changes_json(changes)));
  ASSERT_TRUE(read.changes) << told(read.problems);
  EXPECT_EQ(*read.changes, changes);
}

TEST(ChangesJson, NoChangesAreAnEmptyList) {
  EXPECT_EQ(compact_text(changes_json({})), "[]");
  EXPECT_TRUE(read_changes("[]").changes);
}

TEST(ChangesJson, WhatIsLeftOutIsEmpty) {
  const ReadChanges read = read_changes(R"([{"kind":"remove_cable","target":"C1"}])");
  ASSERT_TRUE(read.changes) << told(read.problems);
  EXPECT_EQ(read.changes->at(0), (job::Change{job::ChangeKind::remove_cable, "C1", "", "", 0}));
}

TEST(ChangesJson, ProblemsAreToldWithTheirPlace) {
  const ReadChanges read = read_changes(
      R"([{"kind":"set_tab","target":"T1-A","number":13},{"kind":"set_tap","number":1e10},{"kind":"set_tap","target":5},7])");
  EXPECT_FALSE(read.changes);
  EXPECT_EQ(error_pointers(read.problems), (std::vector<std::string>{"/0/kind", "/1", "/1/number", "/2/target", "/3"}))
      << told(read.problems);
  EXPECT_NE(told(read.problems).find("Did you mean \"set_tap\"?"), std::string::npos);
}

TEST(ChangesJson, OnlyAListIsTaken) {
  for (const char* text : {"{}", "5", "null", "", "[1,"}) EXPECT_FALSE(read_changes(text).changes) << text;
}

}  // namespace
}  // namespace duskwire::formats
