// SPDX-License-Identifier: Apache-2.0
// The sets of levels as they are shipped: they read, each target says where it comes from, and its numbers are those of
// the sources named there (IESNA Lighting Handbook 9th edition as the GRIHA manual quotes it; EN 13201-2:2015 and
// EN 12464-2 as norm pages of makers show them; sample ordinances).
#include <gtest/gtest.h>

#include <set>

#include "formats/level_set_file.hpp"

namespace duskwire::formats {
namespace {

using study::LevelSet;
using study::LevelTarget;
using study::LitPlace;

const LevelSet& level_set(const std::string& id) {
  const LevelSet* set = find_set(embedded_level_sets(), id);
  if (set == nullptr) throw std::runtime_error("there is no set " + id);
  return *set;
}

const LevelTarget& target(const std::string& set, const std::string& id) {
  for (const LevelTarget& one : level_set(set).targets) {
    if (one.id == id) return one;
  }
  throw std::runtime_error(set + " has no target " + id);
}

TEST(LevelSets, ThoseForGardensComeFirst) {
  ASSERT_EQ(embedded_level_sets().size(), 5u);
  EXPECT_EQ(embedded_level_sets()[0].id, "garden");
}

TEST(LevelSets, EveryTargetAsksForSomethingAndSaysWhereItComesFrom) {
  for (const LevelSet& set : embedded_level_sets()) {
    EXPECT_FALSE(set.notice.empty()) << set.id;
    for (const LevelTarget& one : set.targets) {
      const bool asks = one.average_lx || one.minimum_lx || one.uniformity || one.upright_average_lx || one.most_lx ||
                        one.most_colour_temperature_k || one.most_flux_lm || one.most_upward_pct;
      EXPECT_TRUE(asks) << set.id << "/" << one.id;
      EXPECT_FALSE(one.provenance.clause.empty()) << set.id << "/" << one.id;
      EXPECT_FALSE(one.provenance.status.empty()) << set.id << "/" << one.id;
    }
  }
}

TEST(LevelSets, OfEachPlaceOneTargetJudges) {
  for (const LevelSet& set : embedded_level_sets()) {
    std::set<LitPlace> judged;
    for (const LevelTarget& one : set.targets) {
      if (!one.chosen || one.place == LitPlace::lamp) continue;
      EXPECT_TRUE(judged.insert(one.place).second) << set.id << "/" << one.id;
    }
  }
}

TEST(LevelSets, HandbookValuesForGardens) {
  EXPECT_EQ(target("garden", "path").average_lx, 10);
  EXPECT_EQ(target("garden", "path").upright_average_lx, 3);
  EXPECT_EQ(target("garden", "steps").average_lx, 10);
  EXPECT_EQ(target("garden", "terrace").average_lx, 50);
  EXPECT_EQ(target("garden", "tree").average_lx, 30);
}

TEST(LevelSets, ClassesForPeopleOnFoot) {
  const double average[] = {15, 10, 7.5, 5, 3, 2};
  const double minimum[] = {3, 2, 1.5, 1, 0.6, 0.4};
  for (int i = 0; i < 6; ++i) {
    const LevelTarget& one = target("en-13201", "p" + std::to_string(i + 1));
    EXPECT_EQ(one.average_lx, average[i]);
    EXPECT_EQ(one.minimum_lx, minimum[i]);
  }
}

TEST(LevelSets, WorkPlacesAskForEvennessAndOrdinancesForLittle) {
  EXPECT_EQ(target("en-12464-2", "walkway").average_lx, 5);
  EXPECT_EQ(target("en-12464-2", "walkway").uniformity, 0.25);
  EXPECT_NEAR(target("dark-sky", "property-line").most_lx.value(), 0.1 * 10.764, 0.01);
  EXPECT_NEAR(target("dark-sky", "property-line-other").most_lx.value(), 0.5 * 10.764, 0.01);
}

TEST(LevelSets, ABrokenFileIsRefusedWithItsPlace) {
  const ReadLevelSet read = read_level_set(
      R"({"format": "duskwire-levels", "version": 1, "id": "x", "title": "X", "notice": "n", "targets": [
          {"id": "a", "title": "A", "place": "moon", "provenance": {"status": "seen"}}]})");
  EXPECT_FALSE(read.set);
  ASSERT_FALSE(read.problems.empty());
  EXPECT_EQ(read.problems[0].pointer, "/targets/0/place");
}

TEST(LevelSets, ARulesetIsNoSetOfLevels) {
  const ReadLevelSet read = read_level_set(R"({"format": "duskwire-ruleset", "version": 1, "id": "x"})");
  EXPECT_FALSE(read.set);
}

}  // namespace
}  // namespace duskwire::formats
