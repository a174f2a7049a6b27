// SPDX-License-Identifier: Apache-2.0
#include "study/cures.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <optional>

#include "study/wired_jobs.hpp"

namespace duskwire::study {
namespace {

using testing::AllOf;
using testing::HasSubstr;

struct Clinic {
  explicit Clinic(const job::Job& source)
      : job(source), built(build(job)), numbers(analyse(built)), troubles(built.troubles) {
    for (const Trouble& trouble : number_troubles(built, numbers)) troubles.push_back(trouble);
    trials.emplace(built, numbers, troubles, catalogue, nullptr);
    search.emplace(*trials);
  }
  Clinic(const Clinic&) = delete;

  [[nodiscard]] const Trouble* find(TroubleKind kind, const std::string& id) const {
    for (const Trouble& trouble : troubles) {
      if (trouble.kind == kind && id_of(job, trouble.spot) == id) return &trouble;
    }
    return nullptr;
  }

  std::vector<Cure> cures(TroubleKind kind, const std::string& id) {
    const Trouble* trouble = find(kind, id);
    EXPECT_NE(trouble, nullptr) << "the job does not have the trouble";
    return trouble ? search->cures_for(*trouble) : std::vector<Cure>();
  }

  job::Catalogue catalogue = tests::stock();
  job::Job job;
  Built built;
  Numbers numbers;
  Troubles troubles;
  std::optional<Trials> trials;
  std::optional<CureSearch> search;
};

// All that is wrong with a job once the changes are made, told apart by kind and object; notes aside.
std::vector<std::string> troubles_after(const Clinic& clinic, const std::vector<job::Change>& changes) {
  const auto changed = job::apply(clinic.job, changes, clinic.catalogue);
  EXPECT_TRUE(changed.ok());
  const Built built = build(changed.value());
  std::vector<std::string> all;
  for (const Troubles& troubles : {built.troubles, number_troubles(built, analyse(built))}) {
    for (const Trouble& trouble : troubles) {
      if (severity_of(trouble.kind) == Severity::note) continue;
      all.push_back(std::string(finding_id(trouble.kind)) + " " + id_of(changed.value(), trouble.spot));
    }
  }
  return all;
}

void expect_cured(const Clinic& clinic, const std::vector<Cure>& cures, const std::string& trouble) {
  ASSERT_FALSE(cures.empty());
  const std::vector<std::string> before = troubles_after(clinic, {});
  ASSERT_THAT(before, testing::Contains(trouble));
  for (const Cure& cure : cures) {
    const std::vector<std::string> after = troubles_after(clinic, cure.changes);
    EXPECT_THAT(after, testing::Not(testing::Contains(trouble))) << cure.text;
    for (const std::string& left : after) EXPECT_THAT(before, testing::Contains(left)) << cure.text;
  }
}

job::Job narrow_site() {
  job::Job job = tests::two_splice_site();
  job.transformers[0].outputs[0].limit_a = 10;
  tests::set_window(job, 10.8, 15);
  return job;
}

TEST(Cures, LowLampIsCuredByTapThickerCableOrARunOfItsOwn) {
  Clinic clinic(narrow_site());
  const std::vector<Cure> cures = clinic.cures(TroubleKind::lamp_low, "F8");
  ASSERT_NO_FATAL_FAILURE(expect_cured(clinic, cures, "lamp-window F8"));
  ASSERT_EQ(cures.size(), 3u);
  EXPECT_EQ(cures[0].text, "Tap 14 on T-A: F8 sees 11.85 V at worst (window 10.8 to 15 V).");
  ASSERT_EQ(cures[0].changes.size(), 1u);
  EXPECT_EQ(cures[0].changes[0].kind, job::ChangeKind::set_tap);
  EXPECT_THAT(cures[1].text, AllOf(HasSubstr("10 AWG"), HasSubstr("instead of 12 AWG"), HasSubstr("run-1"),
                                   HasSubstr("about 30 USD more material")));
  EXPECT_THAT(cures[2].text, HasSubstr("a run of its own from T-A to S2 (45 m"));
}

TEST(Cures, ThickerCableIsUsedWhereItHelpsMostAndNoFurther) {
  job::Job job = narrow_site();
  job.catalogue.transformers[0].taps_v = {12, 13};  // no higher tap
  tests::set_window(job, 11.3, 15);
  Clinic clinic(job);
  const std::vector<Cure> cures = clinic.cures(TroubleKind::lamp_low, "F8");
  ASSERT_NO_FATAL_FAILURE(expect_cured(clinic, cures, "lamp-window F8"));
  // One size on the 30 m run alone gives 11.25 V: it takes a second cable, or two sizes on that run.
  EXPECT_THAT(cures[0].changes, testing::SizeIs(2));
  EXPECT_EQ(cures[0].changes[0].target, "run-1");
}

TEST(Cures, CureOfTheWorstLampIsTriedFirstOnTheOthers) {
  Clinic clinic(tests::chained_garden(1, 20, 12));
  const std::vector<Cure> worst = clinic.cures(TroubleKind::lamp_low, "L0-19");
  ASSERT_FALSE(worst.empty());
  const std::uint32_t solves = clinic.trials->solves();
  const std::vector<Cure> other = clinic.cures(TroubleKind::lamp_low, "L0-10");
  ASSERT_FALSE(other.empty());
  EXPECT_EQ(other[0].changes, worst[0].changes);
  EXPECT_EQ(clinic.trials->solves(), solves) << "nothing new had to be solved";
}

TEST(Cures, SolvesPerTroubleAreBounded) {
  job::Job job = tests::chained_garden(1, 60, 12);
  Clinic clinic(job);
  for (const Trouble& trouble : clinic.troubles) {
    const std::uint32_t before = clinic.trials->solves();
    (void)clinic.search->cures_for(trouble);
    EXPECT_LE(clinic.trials->solves() - before, most_solves_per_trouble);
  }
}

TEST(Cures, WhatOnlyHelpsSaysSo) {
  job::Job job = tests::chained_garden(1, 60, 13);  // far too many lamps for one chain
  Clinic clinic(job);
  const auto trouble = std::find_if(clinic.troubles.begin(), clinic.troubles.end(), [](const Trouble& one) {
    return family_of(one.kind) == TroubleFamily::lamp_low && one.spot.index == 59;
  });
  ASSERT_NE(trouble, clinic.troubles.end());
  const std::vector<Cure> cures = clinic.search->cures_for(*trouble);
  for (const Cure& cure : cures) EXPECT_THAT(cure.text, testing::StartsWith("Not enough alone, but it helps: "));
  EXPECT_LE(cures.size(), 1u);
}

TEST(Cures, HighLampIsCuredByALowerTap) {
  job::Job job = narrow_site();
  tests::set_window(job, 9, 12.5);
  Clinic clinic(job);
  const std::vector<Cure> cures = clinic.cures(TroubleKind::lamp_high, "F1");
  ASSERT_NO_FATAL_FAILURE(expect_cured(clinic, cures, "lamp-window F1"));
  EXPECT_THAT(cures[0].text, HasSubstr("Tap 12 on T-A: F1 sees"));
}

TEST(Cures, FarShortIsCuredByASmallerBreakerThatCarriesTheLoad) {
  Clinic clinic(tests::single_run(60));
  const std::vector<Cure> cures = clinic.cures(TroubleKind::far_short, "T-A");
  ASSERT_NO_FATAL_FAILURE(expect_cured(clinic, cures, "far-short T-A"));
  EXPECT_THAT(cures[0].text, AllOf(HasSubstr("A breaker of 15 A on T-A"), HasSubstr("19.8 A")));
  EXPECT_THAT(cures[1].text, HasSubstr("10 AWG"));
}

TEST(Cures, FullOutputIsRelievedByMovingARunToAFreeOne) {
  job::Job job = tests::chained_garden(4, 6, 14);
  for (job::Cable& cable : job.cables) {
    if (cable.from == "T-B") cable.from = "T-A";
  }
  job.transformers[0].outputs[0].limit_a = 6;
  job.transformers[0].outputs[1].limit_a = 6;
  Clinic clinic(job);
  const std::vector<Cure> cures = clinic.cures(TroubleKind::output_headroom, "T-A");
  ASSERT_NO_FATAL_FAILURE(expect_cured(clinic, cures, "output-headroom T-A"));
  EXPECT_THAT(cures[0].text, AllOf(HasSubstr("from T-A to T-B"), HasSubstr("T-A carries")));
}

TEST(Cures, FullOutputOfAFullUnitAsksForAUnitWithMoreOutputs) {
  job::Job job = tests::chained_garden(4, 6, 14);
  job.transformers[0].item = "tr-300";
  job.transformers[0].outputs.pop_back();
  for (job::Cable& cable : job.cables) {
    if (cable.from == "T-B") cable.from = "T-A";
  }
  for (job::TransformerItem& item : job.catalogue.transformers) item.output_limit_a = 6;
  Clinic clinic(job);
  clinic.catalogue = job.catalogue;
  const std::vector<Cure> cures = clinic.cures(TroubleKind::output_headroom, "T-A");
  ASSERT_NO_FATAL_FAILURE(expect_cured(clinic, cures, "output-headroom T-A"));
  EXPECT_THAT(cures[0].text, AllOf(HasSubstr("tr-600 for T and move"), HasSubstr("a new output")));
}

TEST(Cures, FullTransformerIsReplacedByTheCheapestThatCarriesIt) {
  job::Job job = tests::chained_garden(2, 10, 14);
  job.transformers[0].item = "tr-150";
  job.transformers[0].outputs.pop_back();
  for (job::Cable& cable : job.cables) {
    if (cable.from == "T-B") cable.from = "T-A";
  }
  for (job::LuminaireItem& item : job.catalogue.luminaires) item.power_va = item.power_w = 6.5;
  Clinic clinic(job);
  const std::vector<Cure> cures = clinic.cures(TroubleKind::transformer_headroom, "T");
  ASSERT_NO_FATAL_FAILURE(expect_cured(clinic, cures, "transformer-headroom T"));
  EXPECT_THAT(cures[0].text, AllOf(HasSubstr("for T: T delivers"), HasSubstr("of its 300 VA")));
}

TEST(Cures, SmallMarginsOfTwoOutputsAreCuredTogether) {
  job::Job job = tests::chained_garden(2, 20, 12);
  Clinic clinic(job);
  const std::vector<Cure> cures = clinic.cures(TroubleKind::load_margin, "L0-19");
  ASSERT_FALSE(cures.empty());
  EXPECT_THAT(cures[0].text, AllOf(HasSubstr("Tap 13 on T-A, Tap 13 on T-B"), HasSubstr("may grow by")));
  EXPECT_EQ(cures[0].changes.size(), 2u);
}

TEST(Cures, CrossedLoopIsCuredBySwappingOnce) {
  job::Job job = tests::two_splice_site();
  tests::add_cable(job, "closing", "12awg-2", "S2", "T-A", 20).crossed = true;
  Clinic clinic(job);
  const std::vector<Cure> cures = clinic.cures(TroubleKind::crossed_loop, "closing");
  ASSERT_NO_FATAL_FAILURE(expect_cured(clinic, cures, "crossed-loop closing"));
}

TEST(Cures, JoinedOutputsAreCuredByTakingTheCableOut) {
  job::Job job = tests::chained_garden(2, 5, 13);
  tests::add_cable(job, "wrong", "12awg-2", "J0-4", "J1-4", 4);
  Clinic clinic(job);
  const std::vector<Cure> cures = clinic.cures(TroubleKind::outputs_joined, "wrong");
  ASSERT_NO_FATAL_FAILURE(expect_cured(clinic, cures, "outputs-joined wrong"));
}

TEST(Cures, IslandIsConnectedToTheNearestPlaceOfThePlan) {
  job::Job job = narrow_site();
  tests::set_window(job, 10, 15);
  job.cables.erase(job.cables.begin() + 1);  // run-2
  job.transformers[0].position = geometry::Point2{0, 0};
  job.joints[0].position = geometry::Point2{30, 0};
  job.joints[1].position = geometry::Point2{42, 9};
  Clinic clinic(job);
  const std::vector<Cure> cures = clinic.cures(TroubleKind::island, "lead-F5");
  ASSERT_NO_FATAL_FAILURE(expect_cured(clinic, cures, "island lead-F5"));
  EXPECT_THAT(cures[0].text, HasSubstr("Connect S2 to S1 with 15 m of 12 AWG"));
}

TEST(Cures, IslandWithoutAPlanHasNoCure) {
  job::Job job = tests::two_splice_site();
  job.cables.erase(job.cables.begin() + 1);
  Clinic clinic(job);
  EXPECT_TRUE(clinic.cures(TroubleKind::island, "lead-F5").empty());
}

TEST(Cures, LampWithoutSupplyIsHungOnAJointWithinReach) {
  job::Job job = tests::two_splice_site();
  job.joints[0].position = geometry::Point2{30, 0};
  job.joints[1].position = geometry::Point2{42, 9};
  tests::add_lamp(job, "F9", "path-3va").position = geometry::Point3{42.5, 9.2, 0.5};
  Clinic clinic(job);
  const std::vector<Cure> cures = clinic.cures(TroubleKind::lamp_no_supply, "F9");
  ASSERT_NO_FATAL_FAILURE(expect_cured(clinic, cures, "lamp-no-supply F9"));
  EXPECT_THAT(cures[0].text, HasSubstr("Hang F9 on S2"));
}

TEST(Cures, TapThatIsNotOfferedGoesToTheNearestThatDoes) {
  job::Job job = narrow_site();
  tests::set_window(job, 10, 15);
  job.transformers[0].outputs[0].tap_v = 13.5;
  Clinic clinic(job);
  ASSERT_NO_FATAL_FAILURE(
      expect_cured(clinic, clinic.cures(TroubleKind::tap_not_offered, "T-A"), "tap-not-offered T-A"));
}

TEST(Cures, LampFedTwiceLosesItsCable) {
  job::Job job = tests::two_splice_site();
  job.luminaires[4].joint = "S2";
  Clinic clinic(job);
  const std::vector<Cure> cures = clinic.cures(TroubleKind::lamp_fed_twice, "F5");
  ASSERT_NO_FATAL_FAILURE(expect_cured(clinic, cures, "lamp-fed-twice F5"));
}

TEST(Cures, OneThatHarmsAnotherLampIsNotOffered) {
  job::Job job = narrow_site();
  job::LuminaireItem& near = job.catalogue.luminaires[0];  // the uplights at the first splice
  near.window_max_v = 13.0;                                // 12.53 V on tap 13 at high mains, 13.67 V on tap 14
  Clinic clinic(job);
  const std::vector<Cure> cures = clinic.cures(TroubleKind::lamp_low, "F8");
  for (const Cure& cure : cures) {
    EXPECT_THAT(cure.text, testing::Not(HasSubstr("Tap 14"))) << "puts the uplights over their window";
    EXPECT_THAT(troubles_after(clinic, cure.changes), testing::Not(testing::Contains("lamp-window F1"))) << cure.text;
  }
  EXPECT_FALSE(cures.empty());
}

}  // namespace
}  // namespace duskwire::study
