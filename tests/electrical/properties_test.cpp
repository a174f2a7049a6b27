// SPDX-License-Identifier: Apache-2.0
// What must hold in every solved network, on 10,000 seeded random ones: Kirchhoff, Ohm, the laws of the loads, the
// balance of power, and that nothing depends on the order in which lamps are listed.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstring>
#include <functional>
#include <string>
#include <vector>

#include "electrical/audit.hpp"
#include "electrical/random_networks.hpp"
#include "electrical/solver.hpp"
#include "sanitizers.hpp"

namespace duskwire::electrical::testing {
namespace {

// Under the sanitizers, and under Node where only what the other compiler makes of them is new, the first of the same
// networks.
#if defined(DUSKWIRE_UNDER_SANITIZERS)
constexpr std::uint64_t network_count = 250;
constexpr std::uint64_t zero_ohm_count = 50;
#elif defined(__EMSCRIPTEN__)
constexpr std::uint64_t network_count = 1000;
constexpr std::uint64_t zero_ohm_count = 200;
#else
constexpr std::uint64_t network_count = 10000;
constexpr std::uint64_t zero_ohm_count = 2000;
#endif
constexpr std::uint64_t zero_ohm_first_seed = 50000;  // networks with cables and bridges of no resistance

// Bit for bit, so that a NaN equals itself and -0 differs from 0.
bool same_bits(const std::vector<double>& p, const std::vector<double>& q) {
  return p.size() == q.size() && (p.empty() || std::memcmp(p.data(), q.data(), p.size() * sizeof(double)) == 0);
}
bool same_bits(const Solution& p, const Solution& q) {
  return p.converged == q.converged && p.iterations == q.iterations && same_bits(p.node_v, q.node_v) &&
         same_bits(p.segment_a_a, q.segment_a_a) && same_bits(p.segment_b_a, q.segment_b_a) &&
         same_bits(p.load_v, q.load_v) && same_bits(p.load_a, q.load_a) && p.load_state == q.load_state &&
         same_bits(p.load_light, q.load_light) && same_bits(p.output_a, q.output_a) &&
         same_bits(p.output_v, q.output_v) && same_bits(p.bridge_a, q.bridge_a);
}

double largest_gap(const std::vector<double>& p, const std::vector<double>& q) {
  double worst = 0;
  for (std::size_t i = 0; i < p.size(); ++i) worst = std::max(worst, std::abs(p[i] - q[i]));
  return worst;
}

struct Finding {
  std::uint64_t seed = 0;
  bool converged = false;
  bool repeats = false;    // twice in one workspace and once in a new one: the same bits
  double reordered_v = 0;  // largest change of a node's volts when the lamps are listed in another order
  Audit audit;
};

double reordered_gap_v(const RandomCase& random, const Solution& solution) {
  std::vector<std::uint32_t> order;
  const RandomCase shuffled = shuffled_loads(random, &order);
  const auto again = solve(shuffled.network, shuffled.condition);
  return again ? largest_gap(again.value().node_v, solution.node_v) : HUGE_VAL;
}

Finding examine(const RandomCase& random) {
  Finding finding;
  finding.seed = random.seed;
  const auto prepared = prepare(random.network);
  if (!prepared) return finding;
  const WorkspacePtr workspace = make_workspace(*prepared.value());
  const Solution solution = solve(*prepared.value(), random.condition, *workspace);
  finding.converged = solution.converged;
  finding.repeats = same_bits(solve(*prepared.value(), random.condition, *workspace), solution) &&
                    same_bits(solve(*prepared.value(), random.condition, *make_workspace(*prepared.value())), solution);
  finding.audit =
      audit(random.network, random.condition, solution, potentials(*prepared.value(), random.condition, *workspace));
  finding.reordered_v = reordered_gap_v(random, solution);
  return finding;
}

// Every network is solved once for all tests of this file.
const std::vector<Finding>& survey() {
  static const std::vector<Finding> once = [] {
    std::vector<Finding> made;
    for (std::uint64_t seed = 0; seed < network_count; ++seed) made.push_back(examine(random_case(seed)));
    Mix zero_ohm;
    zero_ohm.zero_ohm = true;
    for (std::uint64_t i = 0; i < zero_ohm_count; ++i) {
      made.push_back(examine(random_case(zero_ohm_first_seed + i, zero_ohm)));
    }
    return made;
  }();
  return once;
}

// Every network of the survey passes, or the failure names up to ten that do not.
void expect_all(const std::function<bool(const Finding&)>& holds, const std::function<double(const Finding&)>& value) {
  std::size_t broken = 0;
  std::string seeds;
  for (const Finding& finding : survey()) {
    if (holds(finding)) continue;
    if (++broken <= 10) seeds += " " + std::to_string(finding.seed) + ":" + ::testing::PrintToString(value(finding));
  }
  EXPECT_EQ(broken, 0u) << "of " << survey().size() << " networks; seed:value" << seeds;
}

void expect_within(double limit, const std::function<double(const Finding&)>& value) {
  expect_all([&](const Finding& finding) { return value(finding) <= limit; }, value);
}

TEST(Properties, EveryNetworkFindsItsSteadyState) {
  expect_all([](const Finding& f) { return f.converged; }, [](const Finding& f) { return f.audit.kirchhoff_a; });
}

TEST(Properties, CurrentsSumToZeroAtEveryConductorPoint) {
  expect_within(1e-9, [](const Finding& f) { return f.audit.kirchhoff_a; });
}

// Ten nanovolts: beside copper without any resistance, potentials are known to no less.
TEST(Properties, EveryResistanceObeysOhmsLaw) {
  expect_within(1e-8, [](const Finding& f) { return f.audit.ohm_v; });
}

TEST(Properties, VoltsAreDifferencesOfThePotentialsOfBothConductors) {
  expect_within(1e-9, [](const Finding& f) { return f.audit.node_v; });
}

TEST(Properties, EveryLampDrawsWhatItsKindDrawsAtItsVolts) {
  expect_within(1e-9, [](const Finding& f) { return f.audit.load_law_a; });
}

// Relative to the power of the sources, and to 22 W where they give less: the imbalance of 1e-9 A that counts as solved
// is 2.2e-8 W at 22 V.
TEST(Properties, SourcesDeliverWhatWindingsCablesBridgesAndLampsTake) {
  expect_within(1e-9,
                [](const Finding& f) { return std::abs(f.audit.power_gap_w()) / std::max(f.audit.source_w, 22.0); });
}

TEST(Properties, EveryNumberIsFinite) {
  expect_all([](const Finding& f) { return f.audit.finite; }, [](const Finding&) { return 0.0; });
}

TEST(Properties, StatesOfLampsAgreeWithTheirVolts) {
  for (const Finding& finding : survey()) {
    EXPECT_EQ(finding.audit.wrong_state, "") << "seed " << finding.seed;
  }
}

TEST(Properties, SolvingAgainGivesTheSameBits) {
  expect_all([](const Finding& f) { return f.repeats; }, [](const Finding&) { return 0.0; });
}

// To ten times the tolerance in amperes: an ohm or two lie between the source and most lamps.
TEST(Properties, TheOrderOfTheLampsDoesNotMatter) {
  expect_within(1e-8, [](const Finding& f) { return f.reordered_v; });
}

}  // namespace
}  // namespace duskwire::electrical::testing
