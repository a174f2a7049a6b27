// SPDX-License-Identifier: Apache-2.0
// The order of readings against the exact optimum, on cases small enough for dynamic programming over all subsets of
// their causes. The optimum is computed from the outcomes alone, without the diagnosis.
#include <gtest/gtest.h>

#include <limits>

#include "faulty/garden.hpp"
#include "faulty/least_cost.hpp"
#include "faulty/problem_of.hpp"
#include "faulty/small_case.hpp"

namespace duskwire::faulty {
namespace {

TEST(SmallOptimum, OneStepAheadIsNearTheBestOrderThereIs) {
  wiring::Dice dice(41);
  double best_min = 0;
  double ours_min = 0;
  double random_min = 0;
  double cut_min = 0;
  for (int k = 0; k < 24; ++k) {
    const Garden garden = make_garden(static_cast<Shape>(k % 4), 8, dice);
    const SmallCase one = make_small_case(problem_of(garden.network, {}, garden.leads), 12, 20, dice);
    const double best = least_cost_min(one);
    const double ours = engine_cost_min(one);
    EXPECT_GE(ours, best - 1e-9) << "no order beats the optimum";
    const LeastCost least = least_cost(one, 100000);
    EXPECT_TRUE(least.exact);
    EXPECT_NEAR(least.minutes, best, 1e-9) << "branch and bound against counting all subsets";
    const LeastCost cut = least_cost(one, 3);
    EXPECT_LE(cut.minutes, best + 1e-9) << "cut short it is a bound from below";
    cut_min += cut.minutes;
    best_min += best;
    ours_min += ours;
    random_min += random_cost_min(one, dice);
  }
  EXPECT_LE(ours_min, 1.05 * best_min);
  EXPECT_GT(cut_min, 0.9 * best_min) << "a bound far below would say little of ours";
  EXPECT_GT(random_min, 1.3 * best_min) << "cases where any order will do would prove nothing";
}

// Gardens as large as a job's with up to 36 causes, every reading above ground: no counting of subsets reaches so far.
TEST(SmallOptimum, TheOrderOfManyCausesIsNearTheBestToo) {
  wiring::Dice dice(3060);
  double best_min = 0;
  double ours_min = 0;
  for (int k = 0; k < 8; ++k) {
    const auto lamps = static_cast<std::uint32_t>(30 + dice.below(31));
    const std::size_t causes = 12 + dice.below(25);
    const Garden garden = make_garden(static_cast<Shape>(k % 4), lamps, dice);
    const SmallCase one = make_small_case(problem_of(garden.network, {}, garden.leads), causes,
                                          std::numeric_limits<std::size_t>::max(), dice);
    const LeastCost least = least_cost(one, 200000);
    const double ours = engine_cost_min(one);
    EXPECT_TRUE(least.exact);
    EXPECT_GE(ours, least.minutes - 1e-9) << "no order beats the optimum";
    EXPECT_GE(least_cost(one, 1).minutes, 0.7 * least.minutes) << "a bound far below would end no search";
    best_min += least.minutes;
    ours_min += ours;
  }
  EXPECT_LE(ours_min, 1.02 * best_min);
}

// Four causes of equal chance, two readings that halve them and one that singles out the first, each 1.5 min: halving
// twice takes 3 min, singling out first 1.5 + 3/4 (1.5 + 2/3 of 1.5).
TEST(SmallOptimum, TheOptimumOfFourCausesIsKnown) {
  SmallCase one;
  one.causes.resize(4);
  for (diagnosis::World& cause : one.causes) cause.chance = 0.25;
  one.problem.candidates.resize(3);
  for (diagnosis::Candidate& candidate : one.problem.candidates) candidate.effort_min = 1;
  one.shown = {{0, 1, 1, 1}, {0, 0, 1, 1}, {0, 1, 0, 1}};
  EXPECT_DOUBLE_EQ(least_cost_min(one), 3.0);
  EXPECT_DOUBLE_EQ(least_cost(one, 100).minutes, 3.0);
  EXPECT_DOUBLE_EQ(entropy_bound_min(one), 3.0) << "two bits, one each 1.5 min";
  one.shown.pop_back();
  one.problem.candidates.pop_back();
  // Left: half of the causes need one reading, the others two, and two of them stay together.
  EXPECT_DOUBLE_EQ(least_cost_min(one), 1.5 + 0.5 * 1.5);
  EXPECT_DOUBLE_EQ(least_cost(one, 100).minutes, 1.5 + 0.5 * 1.5);
  EXPECT_DOUBLE_EQ(entropy_bound_min(one), 1.5 * 1.5) << "a bit and a half is all that they tell";
}

}  // namespace
}  // namespace duskwire::faulty
