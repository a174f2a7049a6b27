// SPDX-License-Identifier: Apache-2.0
// The first reading, and readings by ohmmeter. Expected ohms are those of the network solved as it is; expected bits
// are those of equal chances.
#include <gtest/gtest.h>

#include <cmath>

#include "diagnosis/gardens.hpp"
#include "diagnosis/outcomes.hpp"
#include "diagnosis/uncertainty.hpp"

namespace duskwire::diagnosis {
namespace {

using test::add;

Quantity first_asked(const FaultProblem& problem) {
  return problem.candidates[diagnose(problem).next.front().candidate].probe.quantity;
}

TEST(LookAndOhms, WhichLampsAreOutIsAskedFirstAndOnce) {
  FaultProblem problem = faulty::problem_of(test::reference_run());
  const Answer answer = diagnose(problem);
  EXPECT_EQ(first_asked(problem), Quantity::lamps_seen);
  ASSERT_FALSE(answer.next.front().outcomes.empty());
  test::see_all(problem, SeenLamp::dark);
  for (const NextReading& next : diagnose(problem).next) {
    EXPECT_NE(problem.candidates[next.candidate].probe.quantity, Quantity::lamps_seen);
  }
}

TEST(LookAndOhms, LampsThatAreLitDoNotEachSpeakAgainstWater) {
  // 2 A too much, and nothing else read: water or more load. That eight lamps burn steadily is one observation.
  FaultProblem problem = faulty::problem_of(test::reference_run());
  add(problem, {Quantity::output_a, 0}, 4.7);
  const auto water = [&] {
    double chance = 0;
    for (const Explanation& one : diagnose(problem).explanations) {
      if (!one.faults.empty() && one.faults.front().kind == FaultKind::water) chance += one.chance;
    }
    return chance;
  };
  const double unseen = water();
  test::see_all(problem, SeenLamp::lit);
  EXPECT_GT(water(), 0.5 * unseen);
}

TEST(LookAndOhms, ASecondLookAtTheSameLampIsNoSecondWitness) {
  FaultProblem problem = faulty::problem_of(test::reference_run());
  add(problem, {Quantity::output_a, 0}, 4.7);
  test::see_all(problem, SeenLamp::lit);
  const double once = diagnose(problem, Depth::ranking).explanations.front().chance;
  test::see_all(problem, SeenLamp::lit);
  EXPECT_EQ(diagnose(problem, Depth::ranking).explanations.front().chance, once);
}

TEST(LookAndOhms, OhmsThroughAShortAreThoseOfTheNetworkInARunAndInALoop) {
  for (const electrical::Network& network : {test::reference_run(), test::reference_loop()}) {
    const FaultProblem problem = faulty::problem_of(network);
    const Nearby nearby(problem);
    const Uncertainty uncertainty(problem, nearby);
    for (std::uint32_t segment = 0; segment < network.segments.size(); ++segment) {
      const Fault fault{FaultKind::short_span, segment, 0.2};
      const State state = settle(problem, {fault});
      for (std::uint32_t node = 0; node < network.node_count; ++node) {
        EXPECT_NEAR(uncertainty.through_short_ohm(fault, node).value(),
                    read(problem, state, {Quantity::loop_ohm, node}), 1e-3)
            << segment << " from " << node;
      }
    }
  }
}

TEST(LookAndOhms, AnOhmmeterTellsSmallOhmsApartThoughItAlsoShowsNoEnd) {
  const double third = 1.0 / 3;
  const OutcomeTable table({{0, third, 0.2, 0.02}, {1, third, 0.5, 0.02}, {2, third, most_ohm, 0.5}}, 3);
  EXPECT_NEAR(table.information_bit(), std::log2(3), 0.01);
}

}  // namespace
}  // namespace duskwire::diagnosis
