// SPDX-License-Identifier: Apache-2.0
#include <gtest/gtest.h>

#include <limits>

#include "electrical/nets.hpp"
#include "electrical/solver.hpp"

namespace duskwire::electrical {
namespace {

void expect_problem(const Network& network, const std::string& pointer) {
  const Problems problems = validate(network);
  ASSERT_FALSE(problems.empty());
  EXPECT_EQ(problems.front().pointer, pointer);
  EXPECT_EQ(problems.front().severity, Severity::error);
  EXPECT_FALSE(prepare(network).ok());
}

TEST(Validate, SoundNetworkHasNoProblem) { EXPECT_TRUE(validate(test::chain(3, 4, 0.1, 12)).empty()); }

TEST(Validate, NegativeResistanceIsRefused) {
  Network network = test::chain(3, 4, 0.1, 12);
  network.segments[1].copper_b_ohm = -0.1;
  expect_problem(network, "/segments/1/copper_b_ohm");
}

TEST(Validate, NotANumberIsRefused) {
  Network network = test::chain(3, 4, 0.1, 12);
  network.outputs[0].emf_v = std::numeric_limits<double>::quiet_NaN();
  expect_problem(network, "/outputs/0/emf_v");
}

TEST(Validate, MissingNodeIsRefused) {
  Network network = test::chain(3, 4, 0.1, 12);
  network.segments[2].to = 9;
  expect_problem(network, "/segments/2/to");
}

TEST(Validate, CableToItselfIsRefused) {
  Network network = test::chain(3, 4, 0.1, 12);
  network.segments[0].to = 0;
  expect_problem(network, "/segments/0/to");
}

TEST(Validate, LedWithoutRegulationIsRefused) {
  Network network = test::chain(3, 4, 0.1, 12);
  network.loads[1].v_regulation_min = 0;
  expect_problem(network, "/loads/1/v_regulation_min");
}

TEST(Validate, AllProblemsAreReported) {
  Network network = test::chain(3, 4, 0.1, 12);
  network.segments[0].copper_a_ohm = -1;
  network.segments[2].contact_a_ohm = -1;
  network.loads[0].power_va = -4;
  EXPECT_EQ(validate(network).size(), 3u);
}

TEST(Validate, IslandIsAWarning) {
  Network network = test::chain(1, 4, 0.1, 12);
  network.node_count = 3;
  network.loads.push_back(test::led(2, 4));
  const Problems problems = validate(network);
  ASSERT_EQ(problems.size(), 1u);
  EXPECT_EQ(problems[0].severity, Severity::warning);
  EXPECT_TRUE(prepare(network).ok());
}

}  // namespace
}  // namespace duskwire::electrical
