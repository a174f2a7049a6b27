// SPDX-License-Identifier: Apache-2.0
// Wiring found again without a plan: invented gardens with a known truth, a small case counted out in full, and a case
// on paper. DUSKWIRE_TRACE_GARDENS sets how many gardens of each kind; their shares are printed (docs/validation.md).
#include "diagnosis/trace.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <map>

#include "diagnosis/trace_chain.hpp"
#include "diagnosis/trace_ways.hpp"
#include "diagnosis/walked_garden.hpp"
#include "sanitizers.hpp"

namespace duskwire::diagnosis {
namespace {

#ifdef DUSKWIRE_UNDER_SANITIZERS
constexpr int gardens_of_each = 1;
#else
constexpr int gardens_of_each = 4;
#endif

struct Shares {
  int lamps = 0;
  int right_run = 0;
  int nearest_run = 0;  // what the nearest walked way alone would say
  int right_place = 0;  // and spliced within 1.5 m of where it is
  int runs = 0;
  int whole_runs = 0;  // all lamps of the run and no other
  int right_cable = 0;
  int sure = 0;  // lamps with a chance of 90 % and more
  int sure_right = 0;
  double foretold = 0;  // sum of the chances given

  [[nodiscard]] double of_lamps(double count) const { return 100 * count / lamps; }
};

std::uint32_t nearest_run(const TraceProblem& problem, geometry::Point2 at) {
  std::uint32_t best = 0;
  double best_m = 1e9;
  for (std::uint32_t r = 0; r < problem.runs.size(); ++r) {
    const double off_m = WayTree(problem.runs[r].ways).nearest(at).distance_m;
    if (off_m < best_m) best = r;
    best_m = std::min(best_m, off_m);
  }
  return best;
}

void count_lamp(const tests::WalkedGarden& garden, std::size_t lamp, const LampTrace& found, Shares& shares,
                std::vector<bool>& whole) {
  const std::uint32_t truth = garden.run_of_lamp[lamp];
  ++shares.lamps;
  if (nearest_run(garden.problem, garden.problem.lamps[lamp].at) == truth) ++shares.nearest_run;
  std::map<std::uint32_t, double> by_run;
  for (const TracePlace& place : found.places) by_run[place.run] += place.chance;
  if (found.places.empty() || found.unwalked > by_run[found.places.front().run]) {
    whole[truth] = false;
    shares.foretold += found.unwalked;
    return;
  }
  const TracePlace& first = found.places.front();
  const double chance = by_run[first.run];
  const bool right = first.run == truth;
  shares.foretold += chance;
  if (chance >= 0.9) ++shares.sure;
  if (chance >= 0.9 && right) ++shares.sure_right;
  if (!right) whole[truth] = whole[first.run] = false;
  if (!right) return;
  ++shares.right_run;
  if (geometry::distance_m(first.at, garden.tap_of_lamp[lamp]) < 1.5) ++shares.right_place;
}

void count(const tests::WalkedGarden& garden, Shares& shares) {
  const TraceAnswer answer = trace(garden.problem);
  std::vector<bool> whole(garden.problem.runs.size(), true);
  for (std::size_t lamp = 0; lamp < answer.lamps.size(); ++lamp) {
    count_lamp(garden, lamp, answer.lamps[lamp], shares, whole);
  }
  for (std::size_t r = 0; r < whole.size(); ++r) {
    ++shares.runs;
    if (whole[r]) ++shares.whole_runs;
    const auto& cables = answer.runs[r].cable_chance;
    const auto best = std::max_element(cables.begin(), cables.end()) - cables.begin();
    if (static_cast<std::uint32_t>(best) == garden.cable_of_run[r]) ++shares.right_cable;
  }
}

Shares measure(const char* name, const tests::WalkedMix& mix, int few = gardens_of_each) {
  const char* wanted = std::getenv("DUSKWIRE_TRACE_GARDENS");
  const int gardens = wanted ? std::atoi(wanted) : few;
  Shares shares;
  for (int seed = 1; seed <= gardens; ++seed) {
    count(tests::walked_garden(static_cast<std::uint64_t>(seed), mix), shares);
  }
  std::printf(
      "%-16s %4d lamps: right run %.1f %% (nearest way alone %.1f %%), foretold %.1f %%, spliced within 1.5 m %.1f %%; "
      "sure of %.1f %%, of those right %.1f %%; whole runs %d of %d, right cable %d\n",
      name, shares.lamps, shares.of_lamps(shares.right_run), shares.of_lamps(shares.nearest_run),
      shares.of_lamps(shares.foretold), shares.of_lamps(shares.right_place), shares.of_lamps(shares.sure),
      100.0 * shares.sure_right / std::max(1, shares.sure), shares.whole_runs, shares.runs, shares.right_cable);
  return shares;
}

TEST(Trace, AWalkWithAmpsAndVoltsPlacesMoreThanTheNearestCable) {
  tests::WalkedMix mix;
  mix.lead_m = 3;
  const Shares shares = measure("long leads", mix);
  EXPECT_GT(shares.of_lamps(shares.right_run), 85);
  EXPECT_GT(shares.right_run, shares.nearest_run);
  EXPECT_GT(100.0 * shares.sure_right, 90.0 * shares.sure) << "what is called sure is mostly right";
}

TEST(Trace, LiftingOneRunSettlesMostOfWhatIsOpen) {
  tests::WalkedMix mix;
  mix.between_m = 1;
  const Shares read = measure("runs 1 m apart", mix);
  mix.lifted = true;
  const Shares lifted = measure("and one lifted", mix);
  EXPECT_GT(lifted.right_run, read.right_run);
  EXPECT_GT(lifted.sure, read.sure);
}

TEST(Trace, AWalkAloneKnowsThatItKnowsLittle) {
  tests::WalkedMix mix;
  mix.amps = mix.volts = false;
  const Shares shares = measure("walk alone", mix, 1);
  EXPECT_LT(shares.of_lamps(shares.foretold), 90);
  EXPECT_GT(100.0 * shares.sure_right, 90.0 * shares.sure);
  if (!std::getenv("DUSKWIRE_TRACE_GARDENS")) return;
  measure("amps and volts", tests::WalkedMix{});
  mix.amps = true;
  measure("amps", mix);
  tests::WalkedMix apart;
  apart.between_m = 8;
  measure("runs 8 m apart", apart);
}

// Two straight runs one metre apart, lamps between them; what amperes say of them can be counted out.
TraceProblem two_runs() {
  TraceProblem problem;
  for (int r = 0; r < 2; ++r) {
    TracedRun run;
    run.source_v = 13;
    run.source_sigma_v = 0.05;
    run.ways = {{{0, 1.0 * r}, {30, 1.0 * r}}};
    run.loop_ohm_per_m = {0.01045};
    problem.runs.push_back(run);
  }
  const double va[] = {3, 6, 9, 4.5};
  for (int k = 0; k < 4; ++k) {
    TracedLamp lamp;
    lamp.at = {6.0 + 5 * k, 0.5 + 0.1 * (k % 2 == 0 ? 1 : -1)};
    lamp.rated_a = va[k] / 12;
    lamp.least_v = 9;
    problem.lamps.push_back(lamp);
  }
  // 3 and 9 VA on the first, 6 and 4.5 VA on the second.
  problem.runs[0].current_a = 0.96;
  problem.runs[1].current_a = 0.84;
  return problem;
}

// All 81 ways to hang four lamps on two runs or on neither, weighed one by one.
TEST(Trace, LotsGiveTheChancesThatCountingOutGives) {
  const TraceProblem problem = two_runs();
  TraceModel model(problem);
  ASSERT_EQ(model.choices().size(), 8U);
  std::vector<double> chance(8, 0);
  double total = 0;
  for (int code = 0; code < 81; ++code) {
    std::vector<std::vector<std::uint32_t>> members(2);
    double log = 0;
    int rest = code;
    for (std::uint32_t lamp = 0; lamp < 4; ++lamp, rest /= 3) {
      const int on = rest % 3;
      if (on == 2) log += model.log_unwalked(lamp);
      if (on == 2) continue;
      const std::uint32_t choice = model.choices_of(lamp)[static_cast<std::size_t>(on)];
      log += model.choices()[choice].log_prior;
      members[model.choices()[choice].run].push_back(choice);
    }
    for (std::uint32_t r = 0; r < 2; ++r) log += model.log_weight(r, members[r]);
    const double weight = std::exp(log);
    total += weight;
    for (const auto& run : members) {
      for (const std::uint32_t choice : run) chance[choice] += weight;
    }
  }
  const TraceChances drawn = draw_traces(model);
  for (std::size_t choice = 0; choice < 8; ++choice) {
    EXPECT_NEAR(drawn.of_choice[choice], chance[choice] / total, 0.04) << choice;
  }
}

TEST(Trace, AmperesTellLampsBetweenTwoCablesApart) {
  const TraceAnswer answer = trace(two_runs());
  const std::uint32_t truth[] = {0, 1, 0, 1};
  for (std::size_t lamp = 0; lamp < 4; ++lamp) {
    ASSERT_FALSE(answer.lamps[lamp].places.empty());
    EXPECT_EQ(answer.lamps[lamp].places.front().run, truth[lamp]) << lamp;
  }
  ASSERT_TRUE(answer.runs[0].total);
  // 3 and 9 VA at 12.9 and 12.7 V.
  EXPECT_NEAR(answer.runs[0].total->expected_a, 0.94, 0.02);
}

TEST(Trace, TheSameQuestionHasTheSameAnswer) {
  const TraceAnswer one = trace(two_runs());
  const TraceAnswer other = trace(two_runs());
  for (std::size_t lamp = 0; lamp < 4; ++lamp) EXPECT_EQ(one.lamps[lamp].unwalked, other.lamps[lamp].unwalked);
}

TEST(TraceWays, CurrentOfABranchPassesTheCableItLeaves) {
  const WayTree tree({{{0, 0}, {10, 0}, {20, 0}}, {{12, 0.2}, {12, 8}}});
  EXPECT_NEAR(tree.gap_m(1), 0.2, 1e-12);
  EXPECT_NEAR(tree.parting(1).along_m, 12, 1e-12);
  EXPECT_NEAR(tree.from_source_m({1, 5}), 17, 1e-12);
  EXPECT_TRUE(tree.lies_beyond({1, 5}, {0, 11}));
  EXPECT_FALSE(tree.lies_beyond({1, 5}, {0, 13}));
  EXPECT_NEAR(tree.shared_m({1, 5}, {0, 18}), 12, 1e-12);
  EXPECT_NEAR(tree.shared_m({1, 5}, {1, 2}), 14, 1e-12);
  const geometry::Polyline part = tree.stretch(0, 4, 12);
  ASSERT_EQ(part.size(), 3U);
  EXPECT_NEAR(part.front().x_m, 4, 1e-12);
  EXPECT_NEAR(part.back().x_m, 12, 1e-12);
}

}  // namespace
}  // namespace duskwire::diagnosis
