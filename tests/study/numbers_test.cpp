// SPDX-License-Identifier: Apache-2.0
#include "study/numbers.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

#include "study/wired_jobs.hpp"

namespace duskwire::study {
namespace {

using tests::two_splice_site;

// Expected volts and amperes of the acceptance examples are rounded to 0.01.
constexpr double tolerance_v = 0.03;
constexpr double tolerance_a = 0.02;

struct Solved {
  explicit Solved(const job::Job& source) : job(source), built(build(job)), numbers(analyse(built)) {}
  Solved(const Solved&) = delete;

  [[nodiscard]] double at(const char* id) const { return numbers.node_v[built.node_of(id)]; }

  job::Job job;
  Built built;
  Numbers numbers;
};

// The acceptance site with a loop resistance added to a cable: a splice gone bad.
electrical::Solution with_bad_splice(const Built& built, std::size_t cable, double loop_ohm) {
  electrical::Network network = electrical::network_of(*built.prepared);
  network.segments[built.segment_of_cable[cable]].contact_a_ohm += loop_ohm;
  return electrical::solve(std::move(network), built.nominal).value();
}

// 13 V at the tap, 18 m to F1, then 4.5 m steps to F8, eight lamps of 4 VA, 12 AWG: a computed example.
job::Job reference_run(double tap_v) {
  job::Job job = tests::plain_job();
  job.catalogue.luminaires[1].power_w = job.catalogue.luminaires[1].power_va = 4;
  job.catalogue.cables[2].ohm_per_m_20c = 0.00521;
  tests::add_transformer(job, "T", "ideal", "T-A", tap_v);
  std::string previous = "T-A";
  for (int k = 1; k <= 8; ++k) {
    const std::string id = "F" + std::to_string(k);
    tests::add_lamp(job, id, "path-3va");
    tests::add_cable(job, "C" + id, "12awg-2", previous, id, k == 1 ? 18 : 4.5);
    previous = id;
  }
  return job;
}

void expect_lamps(const Solved& solved, const std::vector<double>& expected_v) {
  for (std::size_t i = 0; i < expected_v.size(); ++i) {
    EXPECT_NEAR(solved.numbers.lamps[i].nominal_v, expected_v[i], 0.011) << solved.job.luminaires[i].id;
  }
}

TEST(Numbers, TwoSpliceSiteOnTap13SeesTheKnownVolts) {
  const Solved site(two_splice_site());
  EXPECT_NEAR(site.at("S1"), 11.88, tolerance_v);
  EXPECT_NEAR(site.at("S2"), 11.63, tolerance_v);
  EXPECT_NEAR(site.at("F1"), 11.81, tolerance_v);
  EXPECT_NEAR(site.at("F5"), 11.61, tolerance_v);
  EXPECT_NEAR(site.at("F8"), 11.51, tolerance_v);
  EXPECT_NEAR(site.numbers.outputs[0].current_a, 3.59, tolerance_a);
  EXPECT_NEAR(site.numbers.outputs[0].low_v, 10.75, tolerance_v);
  EXPECT_NEAR(site.numbers.outputs[0].high_v, 12.53, tolerance_v);
  EXPECT_EQ(site.numbers.outputs[0].low_lamp, 7u);
}

TEST(Numbers, TwoSpliceSiteDeliversMoreThanItsLampsTake) {
  const Solved site(two_splice_site());
  EXPECT_NEAR(site.numbers.transformers[0].lamp_va, 42, 1e-9);
  EXPECT_NEAR(site.numbers.transformers[0].load_va, 46.7, 0.2);
}

TEST(Numbers, BadSpliceDrawsTheKnownReadings) {
  const job::Job job = two_splice_site();
  const Built built = build(job);
  const electrical::Solution bad = with_bad_splice(built, 1, 0.35);
  EXPECT_NEAR(bad.output_a[0], 3.68, tolerance_a);
  EXPECT_NEAR(bad.load_v[0], 11.78, tolerance_v);
  EXPECT_NEAR(bad.load_v[4], 10.99, tolerance_v);
  EXPECT_NEAR(bad.load_v[7], 10.88, tolerance_v);
}

TEST(Numbers, DeadLampDrawsTheKnownReadings) {
  job::Job job = two_splice_site();
  job.luminaires[2].dim_pct = 0;
  const Solved dead(job);
  EXPECT_NEAR(dead.numbers.outputs[0].current_a, 3.04, tolerance_a);
  EXPECT_NEAR(dead.at("F1"), 11.99, tolerance_v);
  EXPECT_NEAR(dead.at("F8"), 11.68, tolerance_v);
  EXPECT_EQ(dead.numbers.lamps[2].state, electrical::LampState::off);
}

TEST(Numbers, SwappedAndAddedLampsChangeTheSiteAsKnown) {
  job::Job job = two_splice_site();
  job::LuminaireItem small = job.catalogue.luminaires[0];
  small.id = "uplight-4va";
  small.power_w = small.power_va = 4;
  job.catalogue.luminaires.push_back(small);
  job.luminaires[0].item = job.luminaires[1].item = small.id;
  for (const char* id : {"F9", "F10"}) {
    tests::add_lamp(job, id, "path-3va");
    tests::add_cable(job, std::string("lead-") + id, "14awg-2", "S2", id, 7);
  }
  const Solved site(job);
  EXPECT_NEAR(site.numbers.outputs[0].current_a, 3.80, tolerance_a);
  EXPECT_NEAR(site.at("S1"), 11.81, tolerance_v);
  EXPECT_NEAR(site.at("S2"), 11.48, tolerance_v);
  EXPECT_NEAR(site.at("F8"), 11.35, tolerance_v);
}

TEST(Numbers, ReferenceRunSeesTheKnownVoltsOnEachTap) {
  const Solved healthy(reference_run(13));
  expect_lamps(healthy, {12.51, 12.40, 12.31, 12.23, 12.17, 12.12, 12.09, 12.08});
  EXPECT_NEAR(healthy.numbers.outputs[0].current_a, 2.61, 0.011);
  const Solved low(reference_run(12));
  EXPECT_NEAR(low.numbers.lamps.front().nominal_v, 11.46, 0.011);
  EXPECT_NEAR(low.numbers.lamps.back().nominal_v, 10.99, 0.011);
  EXPECT_NEAR(low.numbers.outputs[0].current_a, 2.87, 0.011);
  const Solved high(reference_run(15));
  EXPECT_NEAR(high.numbers.lamps.front().nominal_v, 14.58, 0.011);
  EXPECT_NEAR(high.numbers.lamps.back().nominal_v, 14.21, 0.011);
}

TEST(Numbers, ReferenceRunAsALoopIsEvenFromBothEnds) {
  job::Job job = reference_run(13);
  tests::add_cable(job, "back", "12awg-2", "F8", "T-A", 18);
  const Solved loop(job);
  expect_lamps(loop, {12.76, 12.72, 12.69, 12.68, 12.68, 12.69, 12.72, 12.76});
  EXPECT_NEAR(loop.numbers.segments[loop.built.segment_of_cable[0]].current_a, 1.26, 0.011);
  EXPECT_NEAR(loop.numbers.segments[loop.built.segment_of_cable[8]].current_a, 1.26, 0.011);
  EXPECT_NEAR(loop.numbers.outputs[0].current_a, 2.52, 0.022);
}

TEST(Numbers, WhatTheTapsDeliverIsWhatLampsAndCablesTake) {
  for (const bool looped : {false, true}) {
    job::Job job = tests::chained_garden(3, 20, 14);
    job.luminaires[5].dim_pct = 30;
    if (looped) tests::add_cable(job, "closing", "12awg-2", "J0-19", "T-A", 4);
    const Solved garden(job);
    double lamps_va = 0;
    for (const LampNumbers& lamp : garden.numbers.lamps) lamps_va += lamp.nominal_v * lamp.current_a;
    const TransformerNumbers& unit = garden.numbers.transformers[0];
    EXPECT_NEAR(unit.load_va, lamps_va + unit.cable_loss_w, 1e-6);
    double behind_va = unit.copper_loss_w + unit.load_va;
    for (const OutputNumbers& output : garden.numbers.outputs) behind_va -= 14 * output.current_a;
    EXPECT_NEAR(behind_va, 0, 1e-6) << "emf times amperes is what winding and taps share";
  }
}

TEST(Numbers, WorstCasesEncloseEveryCorner) {
  job::Job job = tests::chained_garden(2, 12, 13);
  job.site.corners = {};  // the usual: mains, cable, length, lone lamps
  const Solved garden(job);
  ASSERT_EQ(garden.numbers.corners.size(), 10u);
  double lowest_v = 1e9;
  double highest_v = 0;
  for (const LampNumbers& lamp : garden.numbers.lamps) {
    EXPECT_LE(lamp.low_v, lamp.nominal_v);
    EXPECT_GE(lamp.high_v, lamp.nominal_v);
    EXPECT_EQ(corner_words(garden.built.corners[lamp.low_corner], garden.built.corners[0]),
              "mains low, cable hot, long");
    EXPECT_TRUE(garden.built.corners[lamp.high_corner].lone_lamps) << "one lamp alone sees the most";
    lowest_v = std::min(lowest_v, lamp.low_v);
    highest_v = std::max(highest_v, lamp.high_v);
  }
  double corners_low_v = 1e9;
  double corners_high_v = 0;
  for (const CornerNumbers& corner : garden.numbers.corners) {
    EXPECT_TRUE(corner.converged);
    corners_low_v = std::min(corners_low_v, corner.lowest_v);
    corners_high_v = std::max(corners_high_v, corner.highest_v);
  }
  EXPECT_DOUBLE_EQ(corners_low_v, lowest_v);
  EXPECT_DOUBLE_EQ(corners_high_v, highest_v);
  // Hardly loaded, a lamp sees nearly the tap at high mains.
  EXPECT_NEAR(highest_v, 13 * 1.05, 0.05);
}

TEST(Numbers, FarShortIsEmfOverTheWholeLoop) {
  const Solved run(tests::single_run(60));
  // 13 V / (0.03 + 2 x 60 m x 5.211 mohm/m)
  EXPECT_NEAR(run.numbers.outputs[0].far_short_a, 13 / (0.03 + 120 * 0.005211), 1e-9);
  EXPECT_EQ(run.numbers.outputs[0].far_short_node, run.built.node_of("F1"));
}

TEST(Numbers, FarShortIsJudgedInTheWeakestCorner) {
  job::Job job = tests::single_run(60);
  job.site.corners = {5, 20, 0, 40, 5, false, {}};
  const Solved run(job);
  EXPECT_NEAR(run.numbers.outputs[0].far_short_a, 13 * 0.95 / (0.03 + 120 * 0.005211 * 1.0786 * 1.05), 1e-9);
}

TEST(Numbers, NothingIsComputedThatIsNotAsked) {
  const job::Job job = tests::chained_garden(1, 5, 13);
  const Built built = build(job);
  Scope scope;
  scope.corners = scope.margins = scope.shorts = false;
  const Numbers numbers = analyse(built, scope);
  EXPECT_EQ(numbers.corners.size(), 1u);
  EXPECT_EQ(numbers.load_margin.factor, 0);
  EXPECT_EQ(numbers.outputs[0].far_short_node, none);
  EXPECT_DOUBLE_EQ(numbers.lamps[4].low_v, numbers.lamps[4].nominal_v);
}

}  // namespace
}  // namespace duskwire::study
