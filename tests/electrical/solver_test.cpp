// SPDX-License-Identifier: Apache-2.0
#include "electrical/solver.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "electrical/nets.hpp"

namespace duskwire::electrical {
namespace {

using test::chain;
using test::led;
using test::must_solve;
using test::segment;

// V = (E + sqrt(E^2 - 4 R P)) / 2, the upper root of V = E - R P / V.
double one_lamp_v(double emf_v, double r_ohm, double power_va) {
  return 0.5 * (emf_v + std::sqrt(emf_v * emf_v - 4 * r_ohm * power_va));
}

TEST(Solver, OneLampMeetsItsClosedForm) {
  const Solution solution = must_solve(chain(1, 20, 0.5, 13));
  EXPECT_TRUE(solution.converged);
  EXPECT_NEAR(solution.load_v[0], one_lamp_v(13, 0.5, 20), 1e-9);
  EXPECT_EQ(solution.load_state[0], LampState::regulated);
}

TEST(Solver, ContactAndWindingResistanceAddToTheCable) {
  Network network = chain(1, 20, 0.3, 13, 0.1);
  network.segments[0].contact_a_ohm = 0.06;
  network.segments[0].contact_b_ohm = 0.04;
  EXPECT_NEAR(must_solve(network).load_v[0], one_lamp_v(13, 0.5, 20), 1e-9);
}

TEST(Solver, CopperFactorLeavesContactsAlone) {
  Network network = chain(1, 20, 0.2, 13);
  network.segments[0].contact_a_ohm = 0.1;
  Condition hot;
  hot.copper_factor = 2;
  EXPECT_NEAR(must_solve(network, hot).load_v[0], one_lamp_v(13, 0.5, 20), 1e-9);
}

TEST(Solver, HubWithEqualLeadsGivesEqualVolts) {
  Network network = chain(0, 0, 0, 13);
  network.node_count = 6;
  network.segments.push_back(segment(0, 1, 0.3));
  for (std::uint32_t k = 2; k < 6; ++k) {
    network.segments.push_back(segment(1, k, 0.1));
    network.loads.push_back(led(k, 5));
  }
  const Solution solution = must_solve(network);
  for (std::size_t j = 1; j < 4; ++j) EXPECT_DOUBLE_EQ(solution.load_v[j], solution.load_v[0]);
  // All four in one: 0.3 + 0.1 / 4 ohm and 20 VA.
  EXPECT_NEAR(solution.load_v[0], one_lamp_v(13, 0.325, 20), 1e-9);
}

TEST(Solver, SeveralLampsAtOneNodeDrawTogether) {
  Network network = chain(1, 5, 0.5, 13);
  for (int i = 0; i < 3; ++i) network.loads.push_back(led(1, 5));
  const Solution solution = must_solve(network);
  EXPECT_NEAR(solution.load_v[3], one_lamp_v(13, 0.5, 20), 1e-9);
  EXPECT_NEAR(solution.segment_a_a[0], 20 / solution.load_v[0], 1e-9);
}

TEST(Solver, LoopHalvesTheWorstDropAgainstItsTree) {
  Network network = chain(8, 4, 0.05, 13);
  const double tree_v = must_solve(network).load_v[7];
  network.segments.push_back(segment(8, 0, 0.05));
  const Solution loop = must_solve(network);
  EXPECT_NEAR(loop.load_v[0], loop.load_v[7], 1e-9);
  EXPECT_LT(13 - loop.load_v[3], 0.5 * (13 - tree_v));
  EXPECT_NEAR(loop.segment_a_a[8], -loop.segment_a_a[0], 1e-9);
}

TEST(Solver, SharedWindingCouplesTheOutputs) {
  Network network = chain(1, 30, 0.1, 13);
  network.transformers[0].r_shared_ohm = 0.1;
  network.node_count = 4;
  network.outputs.push_back({2, 0, 12, 0.02, 25});
  network.segments.push_back(segment(2, 3, 0.2));
  network.loads.push_back(led(3, 24));
  const Solution s = must_solve(network);
  const double sum_a = s.output_a[0] + s.output_a[1];
  EXPECT_NEAR(s.output_v[0], 13 - 0.1 * sum_a, 1e-9);
  EXPECT_NEAR(s.output_v[1], 12 - 0.1 * sum_a - 0.02 * s.output_a[1], 1e-9);
  EXPECT_NEAR(s.output_a[1] * s.load_v[1], 24, 1e-6);
}

// The lamps of a tripped output are dark even without load; the live ones beside them are no reason to go slowly.
TEST(Solver, ADeadOutputDoesNotSlowItsSibling) {
  Network network = chain(10, 4, 0.05, 13);
  network.transformers[0].r_shared_ohm = 0.05;
  network.node_count = 13;
  network.outputs.push_back({11, 0, 0, 0.02, 25});
  network.segments.push_back(segment(11, 12, 0.2));
  network.loads.push_back(led(12, 24));
  for (const bool meshed : {false, true}) {
    if (meshed) network.segments.push_back(segment(10, 0, 0.5));
    const Solution s = must_solve(network);
    EXPECT_LE(s.iterations, 6U);
    EXPECT_EQ(s.load_state.back(), LampState::off);
    EXPECT_EQ(s.load_state.front(), LampState::regulated);
    EXPECT_NEAR(s.output_v[1], -0.05 * s.output_a[0], 1e-6);
  }
}

TEST(Solver, MeshAndTreeAgreeOnTheSameNetwork) {
  // A loop closed by a cable of enormous resistance is the tree, but goes through the other half of the solver.
  Network network = chain(10, 5, 0.05, 12, 0.03);
  network.transformers[0].r_shared_ohm = 0.02;
  network.node_count = 13;
  network.outputs.push_back({11, 0, 14, 0.02, 25});
  network.segments.push_back(segment(11, 12, 0.3));
  network.loads.push_back(led(12, 12));
  const Solution tree = must_solve(network);
  network.segments.push_back(segment(10, 0, 1e9));
  const Solution mesh = must_solve(network);
  ASSERT_TRUE(mesh.converged);
  for (std::size_t j = 0; j < network.loads.size(); ++j) EXPECT_NEAR(mesh.load_v[j], tree.load_v[j], 1e-7);
}

TEST(Solver, CrossedTreeOnlySwapsPolarity) {
  Network network = chain(3, 5, 0.2, 13);
  const Solution straight = must_solve(network);
  network.segments[1].crossed = true;
  const Solution crossed = must_solve(network);
  EXPECT_DOUBLE_EQ(crossed.load_v[0], straight.load_v[0]);
  EXPECT_DOUBLE_EQ(crossed.load_v[2], -straight.load_v[2]);
  EXPECT_DOUBLE_EQ(crossed.segment_a_a[2], -straight.segment_a_a[2]);
}

TEST(Solver, CrossedLoopIsADeadShortWithFiniteCurrent) {
  Network network = chain(4, 5, 0.2, 13, 0.05);
  network.segments.push_back(segment(4, 0, 0.2));
  network.segments.back().crossed = true;
  const Solution solution = must_solve(network);
  EXPECT_TRUE(solution.converged);
  // Each conductor runs once round the loop into the other: 0.5 ohm of cable, both ways in parallel, plus the source.
  EXPECT_GT(solution.output_a[0], 20);
  for (const double v : solution.load_v) EXPECT_TRUE(std::isfinite(v));
}

TEST(Solver, OpenConductorDarkensAllBeyondIt) {
  Network network = chain(4, 5, 0.2, 13);
  network.segments[2].open_b = true;
  const Solution solution = must_solve(network);
  EXPECT_EQ(solution.load_v[2], 0);
  EXPECT_EQ(solution.load_state[3], LampState::off);
  EXPECT_EQ(solution.load_state[1], LampState::regulated);
  EXPECT_EQ(solution.segment_a_a[3], 0);
}

TEST(Solver, OpenConductorInALoopMakesTheNetCurrentOfItsLegsDiffer) {
  Network network = chain(8, 4, 0.05, 13);
  network.segments.push_back(segment(8, 0, 0.05));
  network.segments[3].open_b = true;
  const Solution solution = must_solve(network);
  const double net_1_a = solution.segment_a_a[0] + solution.segment_b_a[0];
  const double net_2_a = solution.segment_a_a[8] + solution.segment_b_a[8];
  EXPECT_GT(std::abs(net_1_a), 0.3);
  EXPECT_NEAR(net_1_a, net_2_a, 1e-8);
  for (const LampState state : solution.load_state) EXPECT_EQ(state, LampState::regulated);
}

TEST(Solver, LampAcrossTwoIsolatedOutputsStaysDark) {
  Network network;
  network.node_count = 2;
  network.transformers.push_back({});
  network.outputs.push_back({0, 0, 12, 0.02, 25});
  network.outputs.push_back({1, 0, 12, 0.02, 25});
  network.loads.push_back(led(0, 4));
  network.loads.back().minus.node = 1;
  const Solution solution = must_solve(network);
  EXPECT_TRUE(solution.converged);
  EXPECT_NEAR(solution.load_a[0], 0, 1e-9);
  EXPECT_EQ(solution.load_state[0], LampState::off);
}

TEST(Solver, DeadShortAtAnIdealOutputIsFinite) {
  Network network = chain(1, 5, 0.2, 13);
  network.bridges.push_back({{0, Conductor::a}, {0, Conductor::b}, 0});
  const Solution solution = must_solve(network);
  EXPECT_TRUE(std::isfinite(solution.bridge_a[0]));
  EXPECT_GT(solution.bridge_a[0], 1e6);
}

TEST(Solver, BridgeAcrossANodeCarriesOhmsCurrent) {
  Network network = chain(2, 5, 0.2, 13);
  network.bridges.push_back({{2, Conductor::a}, {2, Conductor::b}, 2});
  const Solution solution = must_solve(network);
  EXPECT_NEAR(solution.bridge_a[0] * 2, solution.node_v[2], 1e-9);
}

TEST(Solver, OverloadedChainFallsToABoundedStateInsteadOfFailing) {
  // 80 VA behind 0.6 ohm at 13 V: P_max = E^2 / 4R = 70.4 VA, so no regulated state exists.
  const Solution solution = must_solve(chain(1, 80, 0.6, 13));
  EXPECT_TRUE(solution.converged);
  EXPECT_EQ(solution.load_state[0], LampState::dim);
  EXPECT_NEAR(solution.load_v[0], 13 - 0.6 * 80 / 9, 1e-9);
}

TEST(Solver, OfTwoStatesTheHigherIsFound) {
  // 9.2 V regulated and a dim state both exist here; a sound system stays in the first.
  const double emf_v = 12.0;
  const double r_ohm = 0.5;
  const double power_va = 9.2 * (emf_v - 9.2) / r_ohm;
  EXPECT_NEAR(must_solve(chain(1, power_va, r_ohm, emf_v)).load_v[0], 9.2, 1e-6);
}

TEST(Solver, IslandReadsZero) {
  Network network = chain(2, 5, 0.2, 13);
  network.node_count = 5;
  network.segments.push_back(segment(3, 4, 0.1));
  network.loads.push_back(led(4, 5));
  const Solution solution = must_solve(network);
  EXPECT_EQ(solution.load_v[2], 0);
  EXPECT_EQ(solution.load_state[2], LampState::off);
}

TEST(Solver, NothingAtAllIsSolved) {
  const Solution solution = must_solve(Network{});
  EXPECT_TRUE(solution.converged);
}

TEST(Solver, ZeroLengthSegmentsCarryCurrentInTreesAndLoops) {
  Network network = chain(3, 5, 0.0, 12);
  const Solution tree = must_solve(network);
  EXPECT_NEAR(tree.load_v[2], 12, 1e-12);
  EXPECT_NEAR(tree.segment_a_a[0], 15.0 / 12, 1e-9);
  network.segments.push_back(segment(3, 0, 0.1));
  const Solution loop = must_solve(network);
  EXPECT_TRUE(loop.converged);
  EXPECT_NEAR(loop.load_v[2], 12, 1e-9);
  EXPECT_NEAR(loop.segment_a_a[0], 15.0 / 12, 1e-6);
}

TEST(Solver, DimmedLampsDrawTheirShare) {
  Condition dimmed;
  dimmed.load_level = {0.5f, 0.0f};
  const Solution solution = must_solve(chain(2, 10, 0.2, 13), dimmed);
  EXPECT_NEAR(solution.load_a[0] * solution.load_v[0], 5, 1e-9);
  EXPECT_EQ(solution.load_a[1], 0);
  EXPECT_FLOAT_EQ(static_cast<float>(solution.load_light[0]), 0.5f);
  EXPECT_EQ(solution.load_state[1], LampState::off);
}

TEST(Solver, LampsBeyondTheListOfLevelsAreFull) {
  Condition dimmed;
  dimmed.load_level = {0.5f};
  const Solution solution = must_solve(chain(2, 10, 0.2, 13), dimmed);
  EXPECT_NEAR(solution.load_a[0] * solution.load_v[0], 5, 1e-9);
  EXPECT_NEAR(solution.load_a[1] * solution.load_v[1], 10, 1e-9);
}

TEST(Solver, WorkspaceGivesTheSameAnswerAfterOtherConditions) {
  const auto prepared = prepare(chain(12, 5, 0.04, 13)).value();
  const WorkspacePtr workspace = make_workspace(*prepared);
  const std::vector<double> first = solve(*prepared, {}, *workspace).load_v;
  Condition other;
  other.load_factor = 1.7;
  other.copper_factor = 1.2;
  other.load_level.assign(12, 0.3f);
  static_cast<void>(solve(*prepared, other, *workspace));
  EXPECT_EQ(solve(*prepared, {}, *workspace).load_v, first);
}

TEST(Solver, PotentialsDifferByTheNodeVolts) {
  Network network = chain(6, 5, 0.1, 13);
  network.segments[2].copper_a_ohm = 0.3;
  network.segments.push_back(segment(6, 2, 0.1));
  const auto prepared = prepare(network).value();
  const WorkspacePtr workspace = make_workspace(*prepared);
  const Potentials volts = potentials(*prepared, {}, *workspace);
  const Solution& solution = solve(*prepared, {}, *workspace);
  for (std::size_t k = 0; k < network.node_count; ++k)
    EXPECT_NEAR(volts.a_v[k] - volts.b_v[k], solution.node_v[k], 1e-9);
  EXPECT_NEAR(volts.b_v[0], 0, 1e-12);
}

}  // namespace
}  // namespace duskwire::electrical
