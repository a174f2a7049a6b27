// SPDX-License-Identifier: Apache-2.0
#include "estimate/coil_plan.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <limits>
#include <random>
#include <set>

namespace duskwire::estimate {
namespace {

// Least cost over all ways to share the cuts out, by sets of cuts. cost(sum) is that of one coil, infinite if none
// holds.
template <class Cost>
double least_cost(const std::vector<double>& cuts_m, Cost cost) {
  const std::size_t sets = std::size_t{1} << cuts_m.size();
  std::vector<double> sum_m(sets, 0);
  std::vector<double> least(sets, std::numeric_limits<double>::infinity());
  least[0] = 0;
  for (std::size_t set = 1; set < sets; ++set) {
    for (std::size_t i = 0; i < cuts_m.size(); ++i) {
      if (set >> i & 1u) sum_m[set] += cuts_m[i];
    }
    const std::size_t first = set & (~set + 1);
    for (std::size_t part = set; part != 0; part = (part - 1) & set) {
      if (part & first) least[set] = std::min(least[set], cost(sum_m[part]) + least[set ^ part]);
    }
  }
  return least[sets - 1];
}

double smallest_size_m(const std::vector<double>& sizes_m, double sum_m) {
  double smallest_m = std::numeric_limits<double>::infinity();
  for (const double size_m : sizes_m) {
    if (size_m + 1e-9 >= sum_m) smallest_m = std::min(smallest_m, size_m);
  }
  return smallest_m;
}

double bought_m(const CoilPlan& plan) {
  double sum_m = 0;
  for (const Coil& coil : plan.coils) sum_m += coil.length_m;
  return sum_m;
}

void expect_sound(const CoilPlan& plan, const std::vector<double>& cuts_m) {
  std::set<std::size_t> seen(plan.too_long.begin(), plan.too_long.end());
  std::size_t count = plan.too_long.size();
  for (const Coil& coil : plan.coils) {
    double used_m = 0;
    for (const std::size_t cut : coil.cuts) {
      used_m += cuts_m[cut];
      seen.insert(cut);
    }
    count += coil.cuts.size();
    EXPECT_NEAR(coil.used_m, used_m, 1e-9);
    EXPECT_LE(used_m, coil.length_m + 1e-9);
  }
  EXPECT_EQ(seen.size(), cuts_m.size());
  EXPECT_EQ(count, cuts_m.size());
}

std::vector<double> random_cuts_m(std::mt19937& engine, std::size_t count, double longest_m) {
  std::vector<double> cuts_m(count);
  for (double& cut_m : cuts_m) cut_m = 0.1 + (longest_m - 0.1) * (engine() / 4294967296.0);
  return cuts_m;
}

// 11/9 OPT + 6/9: ESCAPE 2007, LNCS 4614, from memory.
TEST(CoilPlan, OneSizeStaysWithinTheBoundOfFirstFitDecreasing) {
  std::mt19937 engine(11);
  int optimal = 0;
  constexpr int rounds = 400;
  for (int round = 0; round < rounds; ++round) {
    const auto cuts_m = random_cuts_m(engine, 1 + engine() % 9, 50);
    const CoilPlan plan = plan_coils(cuts_m, {50});
    expect_sound(plan, cuts_m);
    const double least = least_cost(
        cuts_m, [](double sum_m) { return sum_m <= 50 + 1e-9 ? 1.0 : std::numeric_limits<double>::infinity(); });
    const auto coils = static_cast<double>(plan.coils.size());
    EXPECT_GE(coils, least);
    EXPECT_LE(coils, 11.0 / 9.0 * least + 6.0 / 9.0);
    if (coils == least) ++optimal;
  }
  EXPECT_GE(optimal, rounds * 9 / 10);
}

TEST(CoilPlan, SeveralSizesAreNeverBelowTheLeastPossibleAndSeldomFarAbove) {
  std::mt19937 engine(12);
  const std::vector<double> sizes_m{15, 30, 75};
  double planned_m = 0;
  double exact_m = 0;
  for (int round = 0; round < 400; ++round) {
    const auto cuts_m = random_cuts_m(engine, 1 + engine() % 8, 40);
    const CoilPlan plan = plan_coils(cuts_m, sizes_m);
    expect_sound(plan, cuts_m);
    const double least_m = least_cost(cuts_m, [&](double sum_m) { return smallest_size_m(sizes_m, sum_m); });
    EXPECT_GE(bought_m(plan), least_m - 1e-9);
    planned_m += bought_m(plan);
    exact_m += least_m;
  }
  EXPECT_LE(planned_m, 1.10 * exact_m);
}

TEST(CoilPlan, FullCoilsAreNotLostToRounding) {
  const CoilPlan plan = plan_coils({0.1, 0.2}, {0.3});  // 0.1 + 0.2 > 0.3 in floating point
  EXPECT_EQ(plan.coils.size(), 1u);
}

TEST(CoilPlan, LongerThanTheLongestCoilIsSetAside) {
  const CoilPlan plan = plan_coils({10, 31, 5}, {30, 15});
  ASSERT_EQ(plan.too_long.size(), 1u);
  EXPECT_EQ(plan.too_long[0], 1u);
  EXPECT_DOUBLE_EQ(bought_m(plan), 15);
}

TEST(CoilPlan, WithoutUsableSizesNothingIsPlanned) {
  const CoilPlan plan = plan_coils({10, 20}, {0, -5, std::numeric_limits<double>::infinity()});
  EXPECT_TRUE(plan.coils.empty());
  EXPECT_EQ(plan.too_long.size(), 2u);
  EXPECT_TRUE(plan_coils({}, {30}).coils.empty());
}

}  // namespace
}  // namespace duskwire::estimate
