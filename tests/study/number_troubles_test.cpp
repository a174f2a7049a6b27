// SPDX-License-Identifier: Apache-2.0
#include "study/number_troubles.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "study/wired_jobs.hpp"

namespace duskwire::study {
namespace {

struct Judged {
  explicit Judged(const job::Job& source)
      : job(source), built(build(job)), numbers(analyse(built)), troubles(number_troubles(built, numbers)) {}
  Judged(const Judged&) = delete;

  [[nodiscard]] const Trouble* find(TroubleKind kind, const std::string& id) const {
    for (const Trouble& trouble : troubles) {
      if (trouble.kind == kind && id_of(job, trouble.spot) == id) return &trouble;
    }
    return nullptr;
  }
  [[nodiscard]] std::size_t count(TroubleKind kind) const {
    return static_cast<std::size_t>(
        std::count_if(troubles.begin(), troubles.end(), [&](const Trouble& trouble) { return trouble.kind == kind; }));
  }

  job::Job job;
  Built built;
  Numbers numbers;
  Troubles troubles;
};

// A site without a far short, so that only the trouble of a test is there.
job::Job quiet_site() {
  job::Job job = tests::two_splice_site();
  job.transformers[0].outputs[0].limit_a = 10;
  return job;
}

TEST(NumberTroubles, SoundSiteHasNone) { EXPECT_TRUE(Judged(quiet_site()).troubles.empty()); }

TEST(NumberTroubles, LampBelowItsWindowInACornerIsToldThere) {
  job::Job job = quiet_site();
  tests::set_window(job, 10.8, 15);
  const Judged judged(job);
  ASSERT_EQ(judged.troubles.size(), 1u);
  const Trouble* trouble = judged.find(TroubleKind::lamp_low, "F8");
  ASSERT_NE(trouble, nullptr);
  EXPECT_NEAR(trouble->measured, 10.75, 0.03);
  EXPECT_DOUBLE_EQ(trouble->limit, 10.8);
}

TEST(NumberTroubles, LampAboveItsWindowInACornerIsTold) {
  job::Job job = quiet_site();
  tests::set_window(job, 9, 12.5);
  const Judged judged(job);
  EXPECT_NE(judged.find(TroubleKind::lamp_high, "F1"), nullptr) << "12.53 V at high mains";
  EXPECT_EQ(judged.find(TroubleKind::lamp_high, "F8"), nullptr);
}

TEST(NumberTroubles, LampAboveItsWindowAsItIsIsOver) {
  job::Job job = quiet_site();
  tests::set_window(job, 9, 11.7);
  const Judged judged(job);
  EXPECT_NE(judged.find(TroubleKind::lamp_over, "F1"), nullptr) << "11.81 V";
  EXPECT_NE(judged.find(TroubleKind::lamp_high, "F8"), nullptr) << "11.5 V, more at high mains";
  EXPECT_EQ(judged.find(TroubleKind::lamp_high, "F1"), nullptr) << "told once";
}

TEST(NumberTroubles, RegulationCountsWhereItEndsInsideTheWindow) {
  job::Job job = quiet_site();
  tests::set_window(job, 8, 15);
  for (job::LuminaireItem& item : job.catalogue.luminaires) item.v_regulation_min = 11;
  const Judged judged(job);
  const Trouble* trouble = judged.find(TroubleKind::lamp_low, "F8");
  ASSERT_NE(trouble, nullptr);
  EXPECT_DOUBLE_EQ(trouble->limit, 11);
}

TEST(NumberTroubles, StarvedLampsAreDimAndThenDark) {
  job::Job job = tests::chained_garden(1, 40, 12);
  const Judged dim(job);
  EXPECT_GT(dim.count(TroubleKind::lamp_not_regulated), 10u);
  job.transformers[0].outputs[0].tap_v = 6;  // below the 7 V at which they go dark
  const Judged dark(job);
  EXPECT_EQ(dark.count(TroubleKind::lamp_off), 40u);
}

TEST(NumberTroubles, LampsTurnedOffAreNoTrouble) {
  job::Job job = quiet_site();
  tests::set_window(job, 10.8, 15);
  job.luminaires[7].dim_pct = 0;
  EXPECT_TRUE(Judged(job).troubles.empty());
}

TEST(NumberTroubles, OutputOverItsLimitAndOverItsShare) {
  job::Job job = quiet_site();
  job.transformers[0].outputs[0].limit_a = 3.7;  // 3.59 A, at low mains 3.85 A
  EXPECT_NE(Judged(job).find(TroubleKind::output_overload, "T-A"), nullptr);
  job.transformers[0].outputs[0].limit_a = 4.5;
  const Judged judged(job);
  const Trouble* trouble = judged.find(TroubleKind::output_headroom, "T-A");
  ASSERT_NE(trouble, nullptr);
  EXPECT_NEAR(trouble->limit, 3.6, 1e-9) << "80 % of 4.5 A";
  job.practice.output_load_pct = 100;
  EXPECT_TRUE(Judged(job).troubles.empty());
}

TEST(NumberTroubles, TransformerOverItsRatingAndOverItsShare) {
  job::Job job = quiet_site();
  job.catalogue.transformers[0].rating_va = 45;  // 46.7 VA at the taps
  EXPECT_NE(Judged(job).find(TroubleKind::transformer_overload, "T"), nullptr);
  job.catalogue.transformers[0].rating_va = 55;
  const Judged judged(job);
  const Trouble* trouble = judged.find(TroubleKind::transformer_headroom, "T");
  ASSERT_NE(trouble, nullptr);
  EXPECT_NEAR(trouble->limit, 44, 1e-9);
}

TEST(NumberTroubles, StarvedLampsStillCountTheirRatedVoltAmperes) {
  job::Job job = tests::chained_garden(1, 40, 12);  // far below regulation: they draw less than 120 VA
  job.transformers[0].item = "tr-150";
  job.practice.transformer_load_pct = 75;
  const Judged judged(job);
  ASSERT_NE(judged.find(TroubleKind::transformer_headroom, "T"), nullptr);
}

// Acceptance example: 60 m of 12 AWG on a 13 V tap behind 0.03 ohm, 25 A protection.
TEST(NumberTroubles, ShortAt60MetresIsBelowTheBreakerAt20MetresAbove) {
  const Judged far(tests::single_run(60));
  const Trouble* trouble = far.find(TroubleKind::far_short, "T-A");
  ASSERT_NE(trouble, nullptr);
  EXPECT_NEAR(trouble->measured, 19.8, 0.3);
  EXPECT_DOUBLE_EQ(trouble->limit, 25);
  EXPECT_EQ(id_of(far.job, far.built.spot_of_node(trouble->other)), "F1");
  const Judged near(tests::single_run(20));
  EXPECT_TRUE(near.troubles.empty());
  EXPECT_NEAR(near.numbers.outputs[0].far_short_a, 54, 0.6);
}

TEST(NumberTroubles, ShortCrossesTheBreakerAtTheKnownLengths) {
  // Beyond about 47 m of 12 AWG, 30 m of 14, 19 m of 16, 75 m of 10 a short draws less than 25 A: computed example.
  const struct {
    const char* item;
    double length_m;
  } rows[] = {{"12awg-2", 47}, {"14awg-2", 30}, {"16awg-2", 19}, {"10awg-2", 75}};
  for (const auto& row : rows) {
    for (const double factor : {0.97, 1.03}) {
      job::Job job = tests::single_run(row.length_m * factor);
      job.cables[0].item = row.item;
      EXPECT_EQ(Judged(job).count(TroubleKind::far_short), factor > 1 ? 1u : 0u) << row.item << " x " << factor;
    }
  }
}

TEST(NumberTroubles, SmallMarginIsToldAtTheLampThatLeavesFirst) {
  job::Job job = tests::chained_garden(1, 20, 12);
  job.site.corners.mains_tolerance_pct = 0;
  tests::set_window(job, 9, 15);
  const Judged judged(job);
  const Trouble* load = judged.find(TroubleKind::load_margin, "L0-19");
  const Trouble* length = judged.find(TroubleKind::length_margin, "L0-19");
  ASSERT_NE(load, nullptr);
  ASSERT_NE(length, nullptr);
  EXPECT_GT(load->measured, 1);
  EXPECT_LT(load->measured, least_margin);
  // It is what it says: so much more load and the last lamp is out of regulation, a little less and it is not.
  for (const double off : {-0.002, 0.002}) {
    job::Job more = job;
    more.catalogue.luminaires[1].power_va *= load->measured + off;
    more.catalogue.luminaires[1].power_w *= load->measured + off;
    EXPECT_EQ(Judged(more).count(TroubleKind::lamp_not_regulated) > 0, off > 0);
  }
}

TEST(NumberTroubles, DeadShortIsToldAtItsCauseOnly) {
  job::Job job = tests::two_splice_site();
  tests::add_cable(job, "closing", "12awg-2", "S2", "T-A", 20).crossed = true;
  const Judged judged(job);
  EXPECT_EQ(judged.count(TroubleKind::lamp_off), 0u);
  EXPECT_EQ(judged.count(TroubleKind::lamp_low), 0u);
  for (const LampNumbers& lamp : judged.numbers.lamps) EXPECT_TRUE(std::isfinite(lamp.nominal_v));
}

}  // namespace
}  // namespace duskwire::study
