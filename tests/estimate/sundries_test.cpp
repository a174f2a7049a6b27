// SPDX-License-Identifier: Apache-2.0
#include "estimate/sundries.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "estimate/jobs.hpp"
#include "estimate/materials.hpp"

namespace duskwire::estimate {
namespace {

const MaterialLine* line_of(const Materials& list, const std::string& item) {
  const auto found =
      std::find_if(list.lines.begin(), list.lines.end(), [&](const MaterialLine& line) { return line.item == item; });
  return found == list.lines.end() ? nullptr : &*found;
}

double quantity(const Materials& list, const std::string& item) {
  const MaterialLine* line = line_of(list, item);
  return line ? line->quantity : 0;
}

TEST(Sundries, CheapestOfTheKindIsTaken) {
  const Materials list = materials(tests::two_hub_garden(), {});
  EXPECT_EQ(line_of(list, "stake-heavy"), nullptr);
  EXPECT_DOUBLE_EQ(quantity(list, "stake"), 8);
}

TEST(Sundries, NoStaplesUnderPavingAndNoneWithoutASpacing) {
  job::Job job = tests::two_hub_garden();
  job.cables[0].ground = job::GroundKind::paving;
  EXPECT_DOUBLE_EQ(quantity(materials(job, {}), "staple"), 27);  // 37 less 10 of the 30 m run
  job.practice.staple_spacing_m = 0;
  EXPECT_DOUBLE_EQ(quantity(materials(job, {}), "staple"), 0);
}

TEST(Sundries, CrossingOfADriveTakesASleeveThatReachesPastBothEdges) {
  job::Job job = tests::two_hub_garden();
  job::Area drive;
  drive.kind = job::GroundKind::drive;
  drive.outline = {{8, -5}, {10.9, -5}, {10.9, 5}, {8, 5}};
  job.plan.areas = {drive};
  job.cables[0].path = {{0, 0}, {30, 0}};
  const Materials list = materials(job, {});
  EXPECT_DOUBLE_EQ(quantity(list, "sleeve-25"), 4);  // 2.9 + 2 x 0.15 m, by whole metres
  EXPECT_NE(line_of(list, "sleeve-25")->note.find("run-1"), std::string::npos);
}

TEST(Sundries, SleeveOfThePlanIsCountedOnceForAllItsCables) {
  job::Job job = tests::two_hub_garden();
  job::Sleeve sleeve;
  sleeve.id = "walk";
  sleeve.path = {{0, 0}, {1.8, 0}};
  job.plan.sleeves = {sleeve};
  job.cables[0].sleeve = "walk";
  job.cables[1].sleeve = "walk";
  job.cables[0].ground = job::GroundKind::paving;
  EXPECT_DOUBLE_EQ(quantity(materials(job, {}), "sleeve-25"), 2);
}

TEST(Sundries, ASleeveThatIsInTheGroundIsNotBought) {
  job::Job job = tests::two_hub_garden();
  job.plan.sleeves.resize(2);
  job.plan.sleeves[0].id = "laid";
  job.plan.sleeves[1].id = "new";
  for (job::Sleeve& sleeve : job.plan.sleeves) sleeve.path = {{0, 0}, {1.8, 0}};
  job.cables[0].sleeve = "laid";
  job.cables[1].sleeve = "new";
  MaterialsOptions options;
  options.laid_sleeves = {"laid"};
  EXPECT_DOUBLE_EQ(quantity(materials(job, {}), "sleeve-25"), 4);
  EXPECT_DOUBLE_EQ(quantity(materials(job, {}, options), "sleeve-25"), 2);
  for (job::SundryItem& item : job.catalogue.sundries) {
    if (item.kind == job::SundryKind::sleeve) item.unit = "piece";
  }
  EXPECT_DOUBLE_EQ(quantity(materials(job, {}, options), "sleeve-25"), 1);
  options.laid_sleeves = {"laid", "new"};
  EXPECT_DOUBLE_EQ(quantity(materials(job, {}, options), "sleeve-25"), 0);
}

TEST(Sundries, SleevesSoldByThePieceAreOnePerCrossing) {
  job::Job job = tests::two_hub_garden();
  for (job::SundryItem& item : job.catalogue.sundries) item.unit = "piece";
  job.cables[0].ground = job::GroundKind::paving;
  job.cables[1].ground = job::GroundKind::drive;
  EXPECT_DOUBLE_EQ(quantity(materials(job, {}), "sleeve-25"), 2);
}

TEST(Sundries, SleeveThatThePlanDoesNotHaveIsPointedAt) {
  job::Job job = tests::two_hub_garden();
  job.cables[1].sleeve = "gone";
  const Materials list = materials(job, {});
  ASSERT_EQ(list.problems.size(), 1u);
  EXPECT_EQ(list.problems[0].pointer, "/cables/1/sleeve");
}

TEST(Sundries, MountsFollowTheKindOfLuminaireAndTransformer) {
  job::Job job = tests::two_hub_garden();
  job.luminaires[0].item = "tree-6va";
  job.luminaires[1].item = "well-6va";
  job.luminaires[2].item = "step-2va";
  job.transformers[0].mounting = job::Mounting::post;
  const Materials list = materials(job, {});
  EXPECT_DOUBLE_EQ(quantity(list, "tree-bolts"), 1);
  EXPECT_DOUBLE_EQ(quantity(list, "gravel-bag"), 1);
  EXPECT_DOUBLE_EQ(quantity(list, "stake"), 5);
  EXPECT_DOUBLE_EQ(quantity(list, "post"), 1);
}

TEST(Sundries, MissingKindIsSaid) {
  job::Job job = tests::two_hub_garden();
  job.catalogue.sundries.clear();
  const Materials list = materials(job, {});
  EXPECT_EQ(list.problems.size(), 3u);  // stakes, staples, tags
  for (const Problem& problem : list.problems) {
    EXPECT_EQ(problem.pointer, "/catalogue/sundries");
    EXPECT_EQ(problem.severity, Severity::warning);
  }
}

}  // namespace
}  // namespace duskwire::estimate
