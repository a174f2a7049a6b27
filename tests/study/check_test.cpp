// SPDX-License-Identifier: Apache-2.0
#include "study/check.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <random>

#include "study/wired_jobs.hpp"

namespace duskwire::study {
namespace {

const Finding* find(const Report& report, const std::string& id, const std::string& subject) {
  for (const Finding& finding : report.findings) {
    if (finding.id == id && finding.subject == subject) return &finding;
  }
  return nullptr;
}

Report check_plainly(const job::Job& job) { return check(job, {}, tests::stock()); }

Rule rule(const std::string& id, const std::string& check_name, Severity severity) {
  Rule made;
  made.id = id;
  made.check = check_name;
  made.severity = severity;
  made.provenance = {"a clause", "an edition", "seen", ""};
  return made;
}

TEST(Check, ReportOfTheTwoSpliceSiteTellsWhatEachLampSees) {
  const Report report = check_plainly(tests::two_splice_site());
  ASSERT_EQ(report.lamps.size(), 8u);
  const LampReport& f8 = report.lamps[7];
  EXPECT_EQ(f8.id, "F8");
  EXPECT_NEAR(f8.nominal_v, 11.51, 0.03);
  EXPECT_NEAR(f8.worst_low_v, 10.75, 0.03);
  EXPECT_EQ(f8.worst_low_corner, "mains low");
  EXPECT_EQ(f8.worst_high_corner, "mains high");
  EXPECT_DOUBLE_EQ(f8.window_min_v, 10);
  EXPECT_DOUBLE_EQ(f8.window_max_v, 15);
  EXPECT_EQ(f8.state, electrical::LampState::regulated);
  EXPECT_EQ(f8.worst_state, electrical::LampState::regulated);
  EXPECT_DOUBLE_EQ(f8.light, 1);
  EXPECT_EQ(f8.output, "T-A");
  EXPECT_NEAR(f8.distance_m, 55, 1e-9);
  EXPECT_NEAR(f8.current_a, 9 / f8.nominal_v, 1e-6);
}

TEST(Check, ReportOfTheTwoSpliceSiteTellsCablesOutputsAndUnit) {
  const Report report = check_plainly(tests::two_splice_site());
  const CableReport& run = report.cables[0];
  EXPECT_DOUBLE_EQ(run.length_m, 30);
  EXPECT_NEAR(run.current_a, 3.59, 0.02);
  EXPECT_NEAR(run.from_v, 13, 1e-9);
  EXPECT_NEAR(run.to_v, 11.88, 0.03);
  EXPECT_NEAR(run.drop_v, run.from_v - run.to_v, 1e-9);
  EXPECT_NEAR(run.loss_w, run.drop_v * run.current_a, 1e-9);
  EXPECT_GT(run.worst_current_a, run.current_a) << "constant power: low mains draws more";
  const OutputReport& output = report.outputs[0];
  EXPECT_EQ(output.transformer, "T");
  EXPECT_EQ(output.lamp_count, 8u);
  EXPECT_NEAR(output.load_share, output.worst_current_a / 25, 1e-12);
  EXPECT_EQ(output.far_short_at, "F8");
  const TransformerReport& unit = report.transformers[0];
  EXPECT_NEAR(unit.lamp_va, 42, 1e-9);
  EXPECT_NEAR(unit.load_va, 46.7, 0.2);
  EXPECT_NEAR(unit.input_w, unit.load_va, 1e-6) << "power factor 1, no core loss, ideal winding";
  EXPECT_NEAR(unit.headroom_va, 300 - unit.worst_load_va, 1e-9);
  EXPECT_NEAR(report.lamp_va, 42, 1e-9);
}

TEST(Check, CornersMarginsAndShortsAreNamed) {
  const Report report = check_plainly(tests::two_splice_site());
  ASSERT_EQ(report.corners.size(), 3u);
  EXPECT_EQ(report.corners[0].name, "nominal");
  EXPECT_EQ(report.corners[1].lowest_lamp, "F8");
  EXPECT_EQ(report.corners[2].highest_lamp, "F1");
  EXPECT_EQ(report.margin.load_first_lamp, "F8");
  EXPECT_GT(report.margin.load_factor, 1.15);
  EXPECT_EQ(report.shorts.size(), 10u) << "two joints and eight lamps";
  const auto at_s1 = std::find_if(report.shorts.begin(), report.shorts.end(),
                                  [](const ShortReport& one) { return one.place == "S1"; });
  ASSERT_NE(at_s1, report.shorts.end());
  // Low mains: 13 V x 0.95 over 2 x 30 m of 5.211 mohm/m.
  EXPECT_NEAR(at_s1->current_a, 13 * 0.95 / (60 * 0.005211), 1e-6);
}

TEST(Check, WorstStateTellsOverAndDim) {
  job::Job job = tests::two_splice_site();
  tests::set_window(job, 9, 12.5);
  EXPECT_EQ(check_plainly(job).lamps[0].worst_state, electrical::LampState::over);
  for (job::LuminaireItem& item : job.catalogue.luminaires) item.v_regulation_min = 11;
  EXPECT_EQ(check_plainly(job).lamps[7].worst_state, electrical::LampState::dim);
}

TEST(Check, FarShortAt60MetresIsAWarningInWords) {
  const Report report = check_plainly(tests::single_run(60));
  const Finding* finding = find(report, "far-short", "T-A");
  ASSERT_NE(finding, nullptr);
  EXPECT_EQ(finding->severity, Severity::warning);
  EXPECT_EQ(finding->pointer, "/transformers/0/outputs/0");
  EXPECT_NEAR(*finding->measured, 19.8, 0.3);
  EXPECT_DOUBLE_EQ(*finding->limit, 25);
  EXPECT_EQ(finding->unit, "A");
  EXPECT_THAT(finding->message, testing::HasSubstr("the breaker may never trip"));
  EXPECT_THAT(finding->message, testing::HasSubstr("Shorten, thicken, or fit a smaller breaker"));
  EXPECT_FALSE(finding->cures.empty());
  EXPECT_TRUE(report.sound) << "a warning is no error";
  EXPECT_TRUE(check_plainly(tests::single_run(20)).findings.empty());
}

TEST(Check, LampWindowIsAnErrorWithNominalAndWorstVolts) {
  job::Job job = tests::two_splice_site();
  tests::set_window(job, 10.8, 15);
  const Report report = check_plainly(job);
  const Finding* finding = find(report, "lamp-window", "F8");
  ASSERT_NE(finding, nullptr);
  EXPECT_EQ(finding->message,
            "F8 sees 11.5 V nominally and 10.75 V at worst (mains low): below its window of 10.8 to 15 V.");
  EXPECT_EQ(finding->pointer, "/luminaires/7");
  ASSERT_FALSE(finding->cures.empty());
  EXPECT_FALSE(report.sound);
  EXPECT_EQ(report.findings.front().severity, Severity::error) << "errors first";
}

TEST(Check, CuresAreLeftOutOnRequest) {
  CheckOptions options;
  options.cures = false;
  const Report report = check(tests::single_run(60), {}, tests::stock(), options);
  ASSERT_NE(find(report, "far-short", "T-A"), nullptr);
  EXPECT_TRUE(find(report, "far-short", "T-A")->cures.empty());
}

TEST(Check, WithoutACureTheMessageSaysSo) {
  job::Job job = tests::two_splice_site();
  job.cables.erase(job.cables.begin() + 1);
  const Report report = check_plainly(job);
  const Finding* finding = find(report, "island", "lead-F5");
  ASSERT_NE(finding, nullptr);
  EXPECT_THAT(finding->message, testing::EndsWith("Nothing that was tried cures it."));
  EXPECT_EQ(report.lamps[4].output, "");
  EXPECT_EQ(report.lamps[4].state, electrical::LampState::off);
}

TEST(Check, RuleOfTheSameMatterLendsItsClauseAndIsToldOnce) {
  job::Job job = tests::two_splice_site();
  tests::set_window(job, 10.8, 15);
  Ruleset ruleset;
  ruleset.id = "xx";
  ruleset.rules = {rule("window", "lamp-window", Severity::error)};
  const Report report = check(job, ruleset, tests::stock());
  const Finding* finding = find(report, "lamp-window", "F8");
  ASSERT_NE(finding, nullptr);
  EXPECT_EQ(finding->provenance.clause, "a clause");
  EXPECT_EQ(find(report, "xx/window", "F8"), nullptr);
}

TEST(Check, RuleStricterThanTheNumbersIsTold) {
  job::Job job = tests::two_splice_site();
  Ruleset ruleset;
  ruleset.id = "xx";
  ruleset.rules = {rule("load", "output-load", Severity::warning)};
  ruleset.rules[0].values["share_pct"] = 10;  // 2.5 A of 25 A
  const Report report = check(job, ruleset, tests::stock());
  EXPECT_NE(find(report, "xx/load", "T-A"), nullptr);
}

TEST(Check, CureThatBreaksARuleIsNotOffered) {
  job::Job job = tests::two_splice_site();
  tests::set_window(job, 10.8, 15);
  Ruleset ruleset;
  ruleset.id = "xx";
  ruleset.rules = {rule("contact", "tap-voltage", Severity::warning)};
  ruleset.rules[0].values["limit_v"] = 13;
  const Report report = check(job, ruleset, tests::stock());
  const Finding* finding = find(report, "lamp-window", "F8");
  ASSERT_NE(finding, nullptr);
  ASSERT_FALSE(finding->cures.empty());
  for (const Cure& cure : finding->cures) EXPECT_THAT(cure.text, testing::Not(testing::HasSubstr("Tap")));
}

TEST(Check, JobWithoutLampsAndEmptyJobAreAnswered) {
  job::Job job = tests::two_splice_site();
  job.luminaires.clear();
  const Report lampless = check_plainly(job);
  EXPECT_NE(find(lampless, "no-lamps", "test"), nullptr);
  EXPECT_EQ(lampless.outputs[0].current_a, 0);
  const Report empty = check({}, {}, {});
  EXPECT_TRUE(empty.sound);
  EXPECT_TRUE(empty.lamps.empty());
}

TEST(Check, OneLampIsAnswered) {
  const Report report = check_plainly(tests::single_run(20));
  EXPECT_EQ(report.lamps.size(), 1u);
  EXPECT_TRUE(report.margin.load_beyond_cap || report.margin.load_factor > 1);
}

// Anything that a broken file could hold once it is read; every number is drawn from a bag of bad ones.
class BrokenJob {
 public:
  explicit BrokenJob(std::uint32_t seed) : engine_(seed), job_(tests::two_splice_site()) {}

  job::Job make() {
    for (int k = 0; k < 6; ++k) {
      tests::add_cable(job_, "x" + std::to_string(pick(4)), cable_item(), place(), place(), number());
      if (one_in(4)) job_.cables.back().length_m.reset();
      if (one_in(4)) job_.cables.back().slack_from_m = number();
      job_.cables.back().crossed = one_in(5);
      job::Luminaire& lamp = tests::add_lamp(job_, "f" + std::to_string(pick(5)), lamp_item());
      if (one_in(2)) lamp.joint = place();
      if (one_in(3)) lamp.lead_length_m = number();
      if (one_in(3)) lamp.dim_pct = number();
    }
    spoil_items();
    if (one_in(2)) job_.site.corners = {number(), number(), number(), number(), number(), one_in(2), {}};
    if (one_in(3)) job_.practice.slack_at_splice_m = number();
    if (one_in(3)) job_.practice.output_load_pct = number();
    if (one_in(3)) tests::add_output(job_, place(), number());
    if (one_in(4)) job_.transformers[0].item = "none-such";
    return job_;
  }

 private:
  std::uint32_t pick(std::uint32_t count) { return engine_() % count; }
  bool one_in(std::uint32_t count) { return pick(count) == 0; }
  double number() {
    constexpr double infinite = std::numeric_limits<double>::infinity();
    const double bag[] = {0, -1, 1, 13, 1e-300, 1e300, -1e300, infinite, -infinite, std::nan(""), 1e9, 0.5, 40, 99};
    return bag[pick(std::size(bag))];
  }
  std::string place() {
    const char* names[] = {"T-A", "S1", "S2", "F1", "F8", "f0", "f1", "x0", "", "nowhere"};
    return names[pick(std::size(names))];
  }
  std::string cable_item() { return one_in(6) ? "none-such" : job_.catalogue.cables[pick(5)].id; }
  std::string lamp_item() { return one_in(6) ? "none-such" : job_.catalogue.luminaires[pick(3)].id; }

  void spoil_items() {
    job::LuminaireItem& lamp = job_.catalogue.luminaires[pick(3)];
    lamp.lamp = static_cast<job::LampKind>(pick(4));
    double* fields[] = {&lamp.power_w,          &lamp.power_va,  &lamp.rated_v,       &lamp.window_min_v,
                        &lamp.window_max_v,     &lamp.v_cut_off, &lamp.lead_length_m, &lamp.lead_area_mm2,
                        &lamp.v_regulation_min, nullptr};
    for (double** field = fields; *field; ++field) {
      if (one_in(3)) **field = number();
    }
    job::CableItem& cable = job_.catalogue.cables[pick(5)];
    if (one_in(2)) cable.ohm_per_m_20c = number();
    if (one_in(2)) cable.area_mm2 = number();
    job::TransformerItem& unit = job_.catalogue.transformers[0];
    if (one_in(3)) unit.r_own_ohm = number();
    if (one_in(3)) unit.r_shared_ohm = number();
    if (one_in(3)) unit.rating_va = number();
    if (one_in(3)) unit.output_limit_a = number();
    if (one_in(3)) unit.taps_v = {number(), number()};
    if (one_in(3)) job_.catalogue.connectors[0].contact_ohm = number();
    if (one_in(3)) job_.transformers[0].outputs[0].tap_v = number();
    if (one_in(3)) job_.transformers[0].outputs[0].limit_a = number();
  }

  std::mt19937 engine_;
  job::Job job_;
};

void expect_finite(const Report& report) {
  for (const LampReport& lamp : report.lamps) {
    for (const double v : {lamp.nominal_v, lamp.worst_low_v, lamp.worst_high_v, lamp.current_a, lamp.light,
                           lamp.distance_m, lamp.window_min_v, lamp.window_max_v}) {
      EXPECT_TRUE(std::isfinite(v)) << lamp.id;
    }
  }
  for (const CableReport& cable : report.cables) {
    for (const double v : {cable.length_m, cable.current_a, cable.worst_current_a, cable.drop_v, cable.loss_w}) {
      EXPECT_TRUE(std::isfinite(v)) << cable.id;
    }
  }
  for (const OutputReport& output : report.outputs) {
    for (const double v : {output.terminal_v, output.worst_current_a, output.load_share, output.far_short_a}) {
      EXPECT_TRUE(std::isfinite(v)) << output.id;
    }
  }
  for (const TransformerReport& unit : report.transformers) {
    for (const double v : {unit.load_va, unit.worst_load_va, unit.load_share, unit.input_w, unit.headroom_va}) {
      EXPECT_TRUE(std::isfinite(v)) << unit.id;
    }
  }
  EXPECT_TRUE(std::isfinite(report.margin.load_factor) && std::isfinite(report.margin.length_factor));
}

TEST(Check, BrokenJobsAreAnsweredWithFindingsAndFiniteNumbers) {
  for (std::uint32_t seed = 1; seed <= 300; ++seed) {
    SCOPED_TRACE(testing::Message() << "seed " << seed);
    CheckOptions options;
    options.cures = seed % 40 == 0;
    const Report report = check(BrokenJob(seed).make(), {}, tests::stock(), options);
    expect_finite(report);
    EXPECT_FALSE(report.findings.empty());
    if (HasFailure()) break;
  }
}

}  // namespace
}  // namespace duskwire::study
