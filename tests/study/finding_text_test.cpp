// SPDX-License-Identifier: Apache-2.0
#include "study/finding_text.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "study/number_troubles.hpp"
#include "study/wired_jobs.hpp"

namespace duskwire::study {
namespace {

// The message of the first finding of that kind.
std::string message(const job::Job& job, TroubleKind kind) {
  const Built built = build(job);
  const Numbers numbers = analyse(built);
  for (const Troubles& troubles : {built.troubles, number_troubles(built, numbers)}) {
    for (const Trouble& trouble : troubles) {
      if (trouble.kind == kind) return to_finding(built, numbers, trouble).message;
    }
  }
  return "no such trouble";
}

TEST(FindingText, LampIsCalledByItsNameToo) {
  job::Job job = tests::two_splice_site();
  tests::set_window(job, 10.8, 15);
  job.luminaires[7].name = "Front wall";
  EXPECT_EQ(message(job, TroubleKind::lamp_low),
            "F8 (Front wall) sees 11.5 V nominally and 10.75 V at worst (mains low): below its window of 10.8 to 15 "
            "V.");
}

TEST(FindingText, EndOfRegulationIsNotCalledAWindow) {
  job::Job job = tests::two_splice_site();
  tests::set_window(job, 8, 15);
  for (job::LuminaireItem& item : job.catalogue.luminaires) item.v_regulation_min = 11;
  EXPECT_THAT(message(job, TroubleKind::lamp_low), testing::EndsWith("below the 11 V from which it holds its light."));
}

TEST(FindingText, ValueThatMissesByAHairIsTellableFromItsLimit) {
  job::Job job = tests::two_splice_site();
  const double low_v = analyse(build(job)).lamps[7].low_v;
  tests::set_window(job, low_v + 0.0004, 15);
  const std::string text = message(job, TroubleKind::lamp_low);
  EXPECT_THAT(text, testing::MatchesRegex(".* 10\\.75[0-9]+ V at worst .* its window of 10\\.75[0-9]+ to 15 V\\."));
}

TEST(FindingText, DarkAndDimLampsAreCalledSo) {
  job::Job job = tests::chained_garden(1, 40, 12);
  EXPECT_THAT(message(job, TroubleKind::lamp_not_regulated), testing::HasSubstr("is dim: it sees"));
  job.transformers[0].outputs[0].tap_v = 6;
  EXPECT_THAT(message(job, TroubleKind::lamp_off), testing::HasSubstr("stays dark: it sees 6 V"));
}

TEST(FindingText, OverloadNamesVoltAmperesAndWatts) {
  job::Job job = tests::two_splice_site();
  job.catalogue.transformers[0].rating_va = 45;
  EXPECT_THAT(message(job, TroubleKind::transformer_overload),
              testing::AllOf(testing::HasSubstr("its lamps are 42 W"), testing::HasSubstr("over its rating of 45 VA")));
  job.transformers[0].outputs[0].limit_a = 3;
  EXPECT_THAT(message(job, TroubleKind::output_overload), testing::HasSubstr("its protection opens at 3 A"));
}

TEST(FindingText, DescriptionsNameTheThingAndTheSlip) {
  job::Job job = tests::two_splice_site();
  tests::add_cable(job, "loose", "12awg-2", "S2", "nowhere", 5);
  tests::add_cable(job, "backwards", "12awg-2", "S1", "S2", -5);
  tests::add_lamp(job, "F9", "none-such").joint = "S2";
  job.catalogue.cables[1].ohm_per_m_20c = -1;
  EXPECT_THAT(message(job, TroubleKind::dangling_cable), testing::HasSubstr("Cable loose goes to nowhere"));
  EXPECT_THAT(message(job, TroubleKind::length_missing), testing::HasSubstr("Cable backwards is -5 m long"));
  EXPECT_THAT(message(job, TroubleKind::unknown_item), testing::HasSubstr("F9 is of item none-such"));
  EXPECT_THAT(message(job, TroubleKind::bad_value), testing::HasSubstr("ohm_per_m_20c of 14awg-2 is -1"));
}

TEST(FindingText, MarginsSayHowMuchMore) {
  job::Job job = tests::chained_garden(1, 20, 12);
  EXPECT_EQ(message(job, TroubleKind::load_margin),
            "Close to collapse: 3 % more load and L0-19 leaves regulation. A reserve of 15 % is wanted.");
}

TEST(FindingText, EveryKindHasAnIdInKebabCase) {
  for (int k = 0; k <= static_cast<int>(TroubleKind::length_margin); ++k) {
    const std::string id = finding_id(static_cast<TroubleKind>(k));
    EXPECT_THAT(id, testing::MatchesRegex("[a-z]+(-[a-z]+)*")) << k;
  }
}

}  // namespace
}  // namespace duskwire::study
