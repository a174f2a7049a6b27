// SPDX-License-Identifier: Apache-2.0
#include <gtest/gtest.h>

#include <cmath>

#include "electrical/nets.hpp"
#include "electrical/solver.hpp"

namespace duskwire::electrical {
namespace {

ShortCircuit shorts_of(const Network& network) {
  const auto prepared = prepare(network).value();
  const WorkspacePtr workspace = make_workspace(*prepared);
  return short_circuit(*prepared, {}, *workspace);
}

std::vector<double> lone_of(const Network& network) {
  const auto prepared = prepare(network).value();
  const WorkspacePtr workspace = make_workspace(*prepared);
  return lone_lamp_v(*prepared, {}, *workspace);
}

TEST(ShortCircuit, IsVoltsOverThePathInATree) {
  const ShortCircuit result = shorts_of(test::chain(3, 5, 0.2, 13, 0.03));
  EXPECT_NEAR(result.node_a[3], 13 / 0.63, 1e-9);
  EXPECT_EQ(result.output[3], 0u);
  EXPECT_NEAR(result.output_share_a[3], result.node_a[3], 1e-12);
}

// Acceptance example: 60 m of 12 AWG (5.211 ohm/km) on 13 V behind 0.03 ohm: 19.8 A +- 0.3; at 20 m 54 A.
TEST(ShortCircuit, FarEndOfALongRunStaysBelowItsBreaker) {
  const auto end_a = [](double length_m) {
    return shorts_of(test::chain(1, 5, 2 * 5.211e-3 * length_m, 13, 0.03)).node_a[1];
  };
  EXPECT_NEAR(end_a(60), 19.8, 0.3);
  EXPECT_NEAR(end_a(20), 54, 1);
}

TEST(ShortCircuit, LoopFeedsFromBothSides) {
  Network network = test::chain(2, 5, 0.3, 12);
  network.segments.push_back(test::segment(2, 0, 0.3));
  // To node 1: 0.3 parallel to 0.6.
  EXPECT_NEAR(shorts_of(network).node_a[1], 12 / 0.2, 1e-6);
}

TEST(ShortCircuit, AgreesWithSolvingTheShort) {
  Network network = test::chain(6, 5, 0.1, 13, 0.03);
  network.segments.push_back(test::segment(6, 1, 0.2));
  const double expected_a = shorts_of(network).node_a[4];
  network.loads.clear();
  network.bridges.push_back({{4, Conductor::a}, {4, Conductor::b}, 0});
  EXPECT_NEAR(test::must_solve(network).bridge_a[0], expected_a, 1e-3);
}

TEST(ShortCircuit, TwoOutputsInParallelShareIt) {
  Network network = test::chain(1, 5, 0.2, 13, 0.03);
  network.node_count = 3;
  network.outputs.push_back({2, 0, 13, 0.03, 25});
  network.segments.push_back(test::segment(2, 1, 0.2));
  const ShortCircuit result = shorts_of(network);
  EXPECT_NEAR(result.node_a[1], 2 * 13 / 0.23, 1e-6);
  EXPECT_NEAR(result.output_share_a[1], 13 / 0.23, 1e-6);
}

TEST(ShortCircuit, IsNoneOnAnIsland) {
  Network network = test::chain(1, 5, 0.2, 13);
  network.node_count = 3;
  const ShortCircuit result = shorts_of(network);
  EXPECT_EQ(result.node_a[2], 0);
  EXPECT_EQ(result.output[2], no_output);
}

TEST(LoneLamp, SeesOnlyItsOwnDrop) {
  const std::vector<double> volts = lone_of(test::chain(2, 10, 0.2, 13));
  EXPECT_NEAR(volts[1], 0.5 * (13 + std::sqrt(169 - 4 * 0.4 * 10)), 1e-9);
}

TEST(LoneLamp, InALoopAgreesWithSwitchingTheOthersOff) {
  Network network = test::chain(4, 10, 0.2, 13);
  network.segments.push_back(test::segment(4, 0, 0.2));
  const std::vector<double> volts = lone_of(network);
  Condition alone;
  alone.load_level = {0, 0, 1, 0};
  EXPECT_NEAR(volts[2], test::must_solve(network, alone).load_v[2], 1e-5);
}

TEST(LoneLamp, OutOfRegulationIsStillFound) {
  EXPECT_NEAR(lone_of(test::chain(1, 80, 0.6, 13))[0], 13 - 0.6 * 80 / 9, 1e-6);
}

}  // namespace
}  // namespace duskwire::electrical
