// SPDX-License-Identifier: Apache-2.0
// The planner against the optimum of small lawns, proven by CBC as an independent program. Model and what "optimum"
// means: docs/algorithms/planner-optimum.md. More and larger sites: duskwire_planner_bench --optimum.
#include <gtest/gtest.h>

#include "sanitizers.hpp"
#include "sites/lots.hpp"
#include "sites/optimum.hpp"
#include "sites/planned.hpp"
#include "sites/stock.hpp"

namespace duskwire::study {
namespace {

struct Lawn {
  std::uint32_t lamps;
  std::uint64_t seed;
};

#ifdef DUSKWIRE_UNDER_SANITIZERS
constexpr Lawn lawns[] = {{4, 2}};
constexpr std::uint64_t steps = 200;
#else
constexpr Lawn lawns[] = {{3, 1}, {4, 2}, {5, 2}, {6, 2}};
constexpr std::uint64_t steps = 1500;
#endif

TEST(RouteOptimum, SmallLawnsAreWithinTwoPercentOfTheOptimum) {
  const estimate::InstallRates rates;
  double sum_pct = 0;
  for (const Lawn lawn : lawns) {
    SCOPED_TRACE(::testing::Message() << lawn.lamps << " lamps, seed " << lawn.seed);
    const job::Job site = sites::open_lawn({lawn.lamps, lawn.seed}, sites::stock());
    RouteRequest request;
    request.most_steps = steps;
    const RouteAnswer answer = sites::planned(site, request);
    ASSERT_TRUE(answer.job.has_value());
    sites::OptimumOptions proof;
    for (const job::Cable& cable : answer.job->cables) proof.ways_kept.push_back(cable.path);
    for (const job::Joint& joint : answer.job->joints) proof.joints_kept.push_back(joint.position.value());
    const double planner_minor = sites::plain_cost_minor(*answer.job, sites::stock(), rates);
    proof.known_cost_minor = planner_minor;
    const auto best = sites::optimum(site, sites::stock(), rates, proof);
    ASSERT_TRUE(best.has_value()) << "Is CBC installed (Debian: coinor-cbc)?";
    EXPECT_TRUE(best->proven);
    const double gap_pct = 100 * (planner_minor / best->bound_minor - 1);
    // The planner's own wiring is one of those that the program chooses from.
    EXPECT_LE(best->cost_minor, planner_minor * 1.0005);
    EXPECT_LE(gap_pct, 4);
    sum_pct += gap_pct;
  }
  const double mean_pct = sum_pct / static_cast<double>(std::size(lawns));
  RecordProperty("mean_gap_pct", std::to_string(mean_pct));
  EXPECT_LE(mean_pct, 2);
}

}  // namespace
}  // namespace duskwire::study
