// SPDX-License-Identifier: Apache-2.0
// The service call on the reference run: half of it dark, roses planted by F7 last week. Expected shares follow from
// weights of 3 : 1 : 3 for splice, cable, splice; the states are those of tests/reference/reference_run.csv.
#include <gtest/gtest.h>

#include <algorithm>

#include "diagnosis/gardens.hpp"

namespace duskwire::diagnosis {
namespace {

using test::add;
using test::chance_of;

FaultProblem call() {
  FaultProblem problem = faulty::problem_of(test::reference_run());
  problem.history.age_years = 5;
  // Roses by F7: the cables on both sides of it.
  for (const std::uint32_t segment : {6U, 7U}) problem.places[problem.spans[segment].cable].dug_near = true;
  add(problem, {Quantity::output_v, 0}, 13.0);
  add(problem, {Quantity::output_a, 0}, 1.26);
  add(problem, {Quantity::node_v, 4}, 12.68);
  add(problem, {Quantity::node_v, 5}, 0);
  return problem;
}

TEST(WhereToDig, TheOpenIsBracketedWhateverWasPlantedBeyondIt) {
  const FaultProblem problem = call();
  const Answer answer = diagnose(problem);
  const SpanPlaces& span = problem.spans[4];
  EXPECT_NEAR(chance_of(answer, span.from_side), 0.43, 0.005);
  EXPECT_NEAR(chance_of(answer, span.cable), 0.14, 0.005);
  EXPECT_NEAR(chance_of(answer, span.to_side), 0.43, 0.005);
  EXPECT_LT(test::chance_of_span(problem, answer, 6), 0.01);
}

TEST(WhereToDig, PlantingInTheBracketItselfDoesRaiseItsCable) {
  FaultProblem problem = call();
  problem.places[problem.spans[4].cable].dug_near = true;
  // 12 : (12 + 3 + 3), within the 60 to 75 % of cut cables after digging.
  EXPECT_NEAR(chance_of(diagnose(problem), problem.spans[4].cable), 12.0 / 18, 0.01);
}

TEST(WhereToDig, ThatLoadedVoltsLeaveTheFirstSpliceDropsIt) {
  FaultProblem problem = call();
  add(problem, {Quantity::cable_end_v, 4, false}, 12.7);
  const Answer answer = diagnose(problem);
  EXPECT_LT(chance_of(answer, problem.spans[4].from_side), 0.005);
  EXPECT_NEAR(chance_of(answer, problem.spans[4].cable), 0.25, 0.005);
  EXPECT_NEAR(chance_of(answer, problem.spans[4].to_side), 0.75, 0.005);
}

TEST(WhereToDig, OfEqualChancesTheCheaperHoleComesFirst) {
  FaultProblem problem = call();
  const std::uint32_t hole_f4 = problem.places[problem.spans[4].from_side].hole;
  const std::uint32_t hole_f5 = problem.places[problem.spans[4].to_side].hole;
  problem.holes[hole_f4].effort_min = 12;  // mulch
  problem.holes[hole_f5].effort_min = 30;  // lawn
  const Answer answer = diagnose(problem);
  ASSERT_GE(answer.dig_order.size(), 3U);
  EXPECT_EQ(answer.dig_order[0].hole, hole_f4);
  EXPECT_EQ(answer.dig_order[1].hole, hole_f5);
  problem.holes[hole_f4].effort_min = 90;  // under paving
  EXPECT_EQ(diagnose(problem).dig_order[0].hole, hole_f5);
}

TEST(WhereToDig, ASpliceThatResistsIsFittedThoughEveryLampIsLit) {
  FaultProblem problem = faulty::problem_of(test::reference_run());
  add(problem, {Quantity::output_v, 0}, 13.0);
  add(problem, {Quantity::output_a, 0}, 2.70);
  add(problem, {Quantity::node_v, 4}, 12.20);
  add(problem, {Quantity::node_v, 5}, 11.43);
  test::see_all(problem, SeenLamp::lit);
  const Answer answer = diagnose(problem);
  const Fault& fault = test::first_fault(answer);
  EXPECT_EQ(fault.kind, FaultKind::resistive);
  EXPECT_EQ(fault.element, 4U);
  EXPECT_NEAR(fault.parameter, 0.5, 0.1);
  EXPECT_GT(answer.explanations.front().parameter_low, 0.4);
  EXPECT_LT(answer.explanations.front().parameter_high, 0.6);
  EXPECT_GT(test::chance_of_span(problem, answer, 4), 0.9);
}

TEST(WhereToDig, AClampRoundALegFindsTheConductorThatIsOpenInALoop) {
  for (const bool swapped : {false, true}) {  // which conductor is which is not known on site
    FaultProblem problem = faulty::problem_of(test::reference_loop());
    add(problem, {Quantity::cable_a, 0, false, swapped}, 0.62);
    add(problem, {Quantity::cable_a, 0, false, !swapped}, 1.26);
    add(problem, {Quantity::cable_net_a, 0}, 0.64);
    test::see_all(problem, SeenLamp::lit);
    const Answer answer = diagnose(problem);
    EXPECT_EQ(test::first_fault(answer).kind, swapped ? FaultKind::open_b : FaultKind::open_a);
    EXPECT_EQ(test::first_fault(answer).element, 2U);
    EXPECT_GT(test::chance_of_span(problem, answer, 2), 0.6);
  }
}

TEST(WhereToDig, ACutAtTheMiddleOfALoopIsCalledInvisible) {
  const FaultProblem problem = faulty::problem_of(test::reference_loop());
  const std::vector<std::uint32_t> blind = diagnose(problem).blind;
  EXPECT_EQ(blind, std::vector<std::uint32_t>{4}) << "between F4 and F5 no current flows";
  EXPECT_TRUE(diagnose(faulty::problem_of(test::reference_run())).blind.empty()) << "a chain hides no cut";
}

TEST(WhereToDig, OpeningALegTellsTheCutAtTheMiddle) {
  FaultProblem problem = faulty::problem_of(test::reference_loop());
  // Return leg lifted: beyond the cut all is dark.
  for (const std::uint32_t node : {4U, 5U}) {
    Probe probe{Quantity::node_v, node};
    probe.lifted = 8;
    add(problem, probe, node == 4 ? 12.68 : 0);
  }
  const Answer answer = diagnose(problem);
  EXPECT_EQ(test::first_fault(answer).element, 4U);
  EXPECT_GT(test::chance_of_span(problem, answer, 4), 0.95);
}

TEST(WhereToDig, ReadingsThatNothingExplainsAreCalledSo) {
  FaultProblem problem = faulty::problem_of(test::reference_run());
  add(problem, {Quantity::output_v, 0}, 13.0);
  add(problem, {Quantity::output_a, 0}, 9.7);
  add(problem, {Quantity::node_v, 2}, 7.1);
  add(problem, {Quantity::node_v, 4}, 12.9);
  add(problem, {Quantity::node_v, 6}, 10.2);
  add(problem, {Quantity::node_v, 8}, 12.8);
  EXPECT_EQ(diagnose(problem).verdict, Verdict::misfit);
}

TEST(WhereToDig, OneWrongReadingAmongSixIsNamedAndDoesNotMislead) {
  FaultProblem problem = faulty::problem_of(test::reference_run());
  add(problem, {Quantity::output_v, 0}, 13.0);
  add(problem, {Quantity::output_a, 0}, 2.70);
  add(problem, {Quantity::node_v, 1}, 12.49);
  add(problem, {Quantity::node_v, 4}, 12.20);
  add(problem, {Quantity::node_v, 5}, 11.43);
  add(problem, {Quantity::node_v, 8}, 13.33);  // 11.33 noted wrongly
  const Answer answer = diagnose(problem);
  EXPECT_EQ(test::first_fault(answer).kind, FaultKind::resistive);
  EXPECT_EQ(test::first_fault(answer).element, 4U);
  for (const Compared& one : answer.compared) {
    EXPECT_EQ(one.wrong_likely, one.observation == 5U) << one.observation;
  }
}

TEST(WhereToDig, TheSameReadingsGiveTheSameAnswer) {
  const Answer first = diagnose(call());
  const Answer again = diagnose(call());
  ASSERT_EQ(first.places.size(), again.places.size());
  for (std::size_t k = 0; k < first.places.size(); ++k) {
    EXPECT_EQ(first.places[k].place, again.places[k].place);
    EXPECT_EQ(first.places[k].chance, again.places[k].chance);
  }
}

}  // namespace
}  // namespace duskwire::diagnosis
