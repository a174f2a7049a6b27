// SPDX-License-Identifier: Apache-2.0
// The rows on losses against the closed form for one lamp: they never forbid a cable with which the transformer stays
// within its VA, and where a cable is well beyond that, they do.
#include "wiring/exact_losses.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "cli/cbc.hpp"
#include "sites/lots.hpp"
#include "sites/optimum.hpp"
#include "sites/stock.hpp"
#include "study/check.hpp"
#include "wiring/exact_model.hpp"

namespace duskwire::sites {
namespace {

constexpr double lamp_va = 50;
constexpr double source_v = 13.3;
constexpr double source_ohm = 0.144;
constexpr double thin_ohm_per_m = 0.0473;  // both conductors
constexpr double thick_ohm_per_m = 0.0030;

// One lamp at the end of one way, a cheap thin cable and a dear thick one, a transformer that may give `most_va`.
wiring::ExactProblem one_lamp(double way_m, double most_va) {
  wiring::ExactProblem problem;
  problem.points = {{{0, 0}, false}, {{way_m, 0}, true}};
  problem.ways = {{0, 1, way_m, 10 * way_m}};
  problem.lamps = {{lamp_va, 5, 0, 0}};
  problem.cables = {{"thin", thin_ohm_per_m, 1, 1, 40, 1}, {"thick", thick_ohm_per_m, 3, 1, 40, 10}};
  problem.joint_cost.assign(3, std::vector<double>(2, std::numeric_limits<double>::infinity()));
  problem.longest_cable_m = 1.5 * way_m;
  wiring::ExactProblem::Unit unit;
  unit.source_v = source_v;
  unit.source_ohm = source_ohm;
  unit.most_a = wiring::amperes_at_va(most_va, source_v, source_ohm);
  unit.sizes = 2;
  problem.units = {unit};
  return problem;
}

// What the terminals deliver to a lamp of `lamp_va` behind so many ohms: V I = lamp_va + I I R.
double delivered_va(double cable_ohm) {
  const double ohm = source_ohm + cable_ohm;
  const double current_a = (source_v - std::sqrt(source_v * source_v - 4 * ohm * lamp_va)) / (2 * ohm);
  return lamp_va + current_a * current_a * cable_ohm;
}

double least_cost(double way_m, double most_va) {
  const wiring::ExactProblem problem = one_lamp(way_m, most_va);
  const auto solved =
      cli::solve_with_cbc(wiring::exact_model(problem, problem.units.front(), wiring::Volts::left_out), {});
  EXPECT_TRUE(solved.has_value()) << "Is CBC installed (Debian: coinor-cbc)?";
  return solved && solved->cost ? *solved->cost : std::numeric_limits<double>::infinity();
}

TEST(ExactLosses, NeverForbidWhatTheTransformerCarriesAndForbidWhatIsWellBeyond) {
  for (const double way_m : {2.0, 5.0, 8.0}) {
    SCOPED_TRACE(testing::Message() << way_m << " m");
    const double thin_cost = (10 + 1 + 1) * way_m;
    const double thick_cost = (10 + 3 + 1) * way_m;
    const double needed_va = delivered_va(thin_ohm_per_m * way_m);
    EXPECT_NEAR(least_cost(way_m, needed_va * 1.0001), thin_cost, 1e-3);
    // A tenth less may be lost than is lost.
    EXPECT_NEAR(least_cost(way_m, lamp_va + 0.9 * (needed_va - lamp_va)), thick_cost, 1e-3);
  }
}

// A whole wiring that passes the full check with so many VA at the terminals is still to be had by the program when the
// transformer may give no more than that: its bound does not lie above what is possible.
TEST(ExactLosses, ABoundNeverLiesAboveAWiringThatPassesTheFullCheck) {
  const estimate::InstallRates rates;
  for (const std::uint64_t seed : {2U, 3U}) {
    SCOPED_TRACE(testing::Message() << "seed " << seed);
    const job::Job site = open_lawn({4, seed}, stock());
    const auto best = optimum(site, stock(), rates, {});
    ASSERT_TRUE(best && best->job) << "Is CBC installed (Debian: coinor-cbc)?";
    const study::Report report = study::check(*best->job, us_rules(), stock(), {.cures = false});
    ASSERT_TRUE(report.sound);
    auto problem = optimum_problem(site, stock(), rates, {});
    ASSERT_TRUE(problem.has_value());
    wiring::ExactProblem::Unit& unit = problem->units.front();
    const double needed_va = report.transformers.at(0).worst_load_va;
    unit.most_a = wiring::amperes_at_va(needed_va, unit.source_v, unit.source_ohm);
    unit.sizes = wiring::sensible_sizes(*problem, unit);
    ASSERT_TRUE(wiring::is_tight(*problem, unit));
    const auto solved = cli::solve_with_cbc(wiring::exact_model(*problem, unit, wiring::Volts::left_out), {});
    ASSERT_TRUE(solved.has_value());
    EXPECT_LE(solved->bound + unit.cost, best->cost_minor + 1e-6);
    EXPECT_GE(solved->bound + unit.cost, 0.9 * best->cost_minor);
  }
}

TEST(ExactLosses, SpareIsWhatIsDeliveredAtTheLimitLessTheLamps) {
  const wiring::ExactProblem problem = one_lamp(10, 60);
  EXPECT_NEAR(wiring::spare_va(problem, problem.units.front()), 10, 1e-9);
}

// Thicker than one that does for everything is not sensible; with little VA to spare the thick one is.
TEST(ExactLosses, AThickerCableIsSensibleWhereTheVaAreScarce) {
  const wiring::ExactProblem roomy = one_lamp(2, 100);
  EXPECT_EQ(wiring::sensible_sizes(roomy, roomy.units.front()), 1U);
  const wiring::ExactProblem scarce = one_lamp(2, 51);
  EXPECT_EQ(wiring::sensible_sizes(scarce, scarce.units.front()), 2U);
}

}  // namespace
}  // namespace duskwire::sites
