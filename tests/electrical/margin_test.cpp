// SPDX-License-Identifier: Apache-2.0
#include <gtest/gtest.h>

#include "electrical/nets.hpp"
#include "electrical/solver.hpp"

namespace duskwire::electrical {
namespace {

struct Margins {
  Margin load;
  Margin length;
};

Margins margins_of(const Network& network) {
  const auto prepared = prepare(network).value();
  const WorkspacePtr workspace = make_workspace(*prepared);
  return {load_margin(*prepared, {}, *workspace), length_margin(*prepared, {}, *workspace)};
}

TEST(Margin, OneLampReachesItsRegulationLimit) {
  // Leaves at 9 V: power 9 (13 - 9) / 0.3 = 120 VA; the fold at 6.5 V lies below.
  const Margins margins = margins_of(test::chain(1, 20, 0.3, 13));
  EXPECT_NEAR(margins.load.factor, 6.0, 1e-4);
  EXPECT_NEAR(margins.length.factor, 6.0, 1e-4);
}

TEST(Margin, OneLampStopsAtTheFoldWhereThatComesFirst) {
  Network network = test::chain(1, 20, 0.3, 20);
  network.loads[0].v_max = 30;
  // P_max = E^2 / 4R at E / 2 = 10 V, above 9 V.
  EXPECT_NEAR(margins_of(network).load.factor, 20.0 * 20.0 / (4 * 0.3) / 20, 2e-3);
}

TEST(Margin, IsZeroWhereALampIsOutOfRegulationAlready) {
  const Margins margins = margins_of(test::chain(1, 80, 0.6, 13));
  EXPECT_EQ(margins.load.factor, 0);
  EXPECT_EQ(margins.length.factor, 0);
}

TEST(Margin, NamesTheFarLampOfAChain) {
  const Margins margins = margins_of(test::chain(10, 5, 0.1, 13));
  EXPECT_EQ(margins.load.first_load, 9u);
  EXPECT_EQ(margins.length.first_load, 9u);
}

TEST(Margin, IsBeyondTheCapForAShortCable) {
  const Margins margins = margins_of(test::chain(1, 1, 0.01, 13));
  EXPECT_TRUE(margins.load.beyond_cap);
  EXPECT_EQ(margins.load.factor, margin_cap);
}

TEST(Margin, AtTheEdgeTheNetworkStillHoldsAndJustBeyondItDoesNot) {
  Network network = test::chain(12, 5, 0.05, 13, 0.03);
  network.segments.push_back(test::segment(12, 4, 0.2));  // with a loop
  const double factor = margins_of(network).load.factor;
  Condition at;
  at.load_factor = factor;
  for (const LampState state : test::must_solve(network, at).load_state) EXPECT_EQ(state, LampState::regulated);
  at.load_factor = factor * 1.001;
  bool some_dim = false;
  for (const LampState state : test::must_solve(network, at).load_state) some_dim |= state != LampState::regulated;
  EXPECT_TRUE(some_dim);
}

TEST(Margin, LampOnAnIslandCountsAsOutOfRegulation) {
  Network network = test::chain(2, 5, 0.2, 13);
  network.node_count = 4;
  network.loads.push_back(test::led(3, 5));
  const Margins margins = margins_of(network);
  EXPECT_EQ(margins.load.factor, 0);
  EXPECT_EQ(margins.load.first_load, 2u);
}

}  // namespace
}  // namespace duskwire::electrical
