// SPDX-License-Identifier: Apache-2.0
// The planner on problems made by dice: what it answers hangs together, costs what it says, and holds what was pinned.
#include "wiring/planner.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "wiring/dice.hpp"
#include "wiring/plan_fixture.hpp"

namespace duskwire::wiring {
namespace {

std::vector<geometry::Point2> scattered(std::uint64_t seed, std::uint32_t count, double side_m) {
  Dice dice(seed);
  std::vector<geometry::Point2> points;
  for (std::uint32_t i = 0; i < count; ++i) points.push_back({side_m * dice.unit(), side_m * dice.unit()});
  return points;
}

PlanAnswer planned(PlanProblem problem, std::uint64_t steps, std::uint64_t seed = 1) {
  Planner planner(std::move(problem), seed);
  planner.improve({}, steps);
  return planner.answer();
}

// The cost of an answer, added up anew from what it lists.
double added_up(const PlanProblem& problem, const PlanAnswer& answer) {
  double cost = 0;
  std::set<std::uint32_t> dug;
  std::vector<std::uint32_t> outs(answer.cables.size(), 0);
  for (const PlanCable& cable : answer.cables) {
    if (cable.from != none) ++outs[cable.from];
  }
  for (std::size_t c = 0; c < answer.cables.size(); ++c) {
    const PlanCable& cable = answer.cables[c];
    double length_m = 0;
    for (const std::uint32_t e : cable.edges) {
      length_m += problem.ground.edges[e].length_m;
      if (dug.insert(e).second) cost += problem.ground.edges[e].dig_cost;
    }
    length_m += cable.from == none ? problem.slack_output_m : problem.slack_splice_m;
    length_m += cable.ends_in_lamp ? problem.slack_luminaire_m : problem.slack_splice_m;
    cost += length_m * problem.cables[cable.type].cost_per_m;
    cost += problem.cable_end_cost * (cable.ends_in_lamp ? 1 : 2);
    if (cable.ends_in_lamp) continue;
    const auto wires = static_cast<std::uint32_t>(1 + outs[c] + cable.lamps.size());
    cost += problem.joints.of(wires, 0, 0).cost + (cable.lamps.empty() ? problem.joint_away_cost : 0);
  }
  for (const PlanUnit& unit : answer.units)
    cost += problem.units[unit.type].cost + problem.places[unit.place].unit_cost;
  return cost;
}

void expect_whole(const PlanProblem& problem, const PlanAnswer& answer) {
  EXPECT_TRUE(answer.left_out.empty());
  std::vector<int> fed(problem.lamps.size(), 0);
  for (std::size_t c = 0; c < answer.cables.size(); ++c) {
    const PlanCable& cable = answer.cables[c];
    const std::uint32_t begins = cable.from == none ? problem.places[answer.outputs[cable.output].place].node
                                                    : answer.cables[cable.from].nodes.back();
    EXPECT_EQ(cable.nodes.front(), begins);
    if (cable.from != none) {
      EXPECT_LT(cable.from, c);
      EXPECT_FALSE(answer.cables[cable.from].ends_in_lamp) << "nothing leads on from a lamp";
      EXPECT_EQ(answer.cables[cable.from].output, cable.output);
    }
    for (std::size_t i = 0; i < cable.edges.size(); ++i) {
      const GroundEdge& edge = problem.ground.edges[cable.edges[i]];
      EXPECT_EQ(std::minmax(edge.a, edge.b), std::minmax(cable.nodes[i], cable.nodes[i + 1]));
    }
    for (const std::uint32_t lamp : cable.lamps) {
      ++fed[lamp];
      EXPECT_EQ(problem.lamps[lamp].node, cable.nodes.back());
    }
    if (cable.ends_in_lamp) {
      EXPECT_EQ(cable.lamps.size(), 1u);
    }
  }
  EXPECT_EQ(std::count(fed.begin(), fed.end(), 1), static_cast<std::ptrdiff_t>(fed.size()));
}

TEST(Planner, FeedsEachLampOnceAndCostsWhatItLists) {
  for (std::uint64_t seed = 1; seed <= 6; ++seed) {
    const PlanProblem problem = plan_problem(scattered(seed, 12, 40), {{0, 0}, {40, 20}});
    const PlanAnswer answer = planned(problem, 150, seed);
    expect_whole(problem, answer);
    EXPECT_NEAR(added_up(problem, answer), answer.cost, 1e-6) << seed;
  }
}

TEST(Planner, IsTheSameForASeedAndNeverDearerWithMoreSteps) {
  const PlanProblem problem = plan_problem(scattered(3, 14, 40), {{0, 0}});
  double before = HUGE_VAL;
  for (const std::uint64_t steps : {0, 20, 100, 400}) {
    const PlanAnswer once = planned(problem, steps);
    EXPECT_EQ(once.cost, planned(problem, steps).cost);
    EXPECT_LE(once.cost, before + 1e-9);
    before = once.cost;
  }
}

TEST(Planner, StopsWhenToldToButHasAnAnswer) {
  const PlanProblem problem = plan_problem(scattered(4, 10, 30), {{0, 0}});
  Planner planner(problem, 1);
  planner.improve([] { return false; }, 1000);
  EXPECT_EQ(planner.progress().steps, 0u);
  expect_whole(problem, planner.answer());
  EXPECT_GT(planner.progress().cost, 0);
}

TEST(Planner, FindsTheObviousWirings) {
  // In a row: one trench, each metre dug once.
  const PlanProblem row = plan_problem({{5, 0}, {10, 0}, {15, 0}}, {{0, 0}});
  EXPECT_NEAR(planned(row, 100).trench_m, 15, 1e-6);
  // A crowd far away: one cable there.
  const PlanAnswer crowd = planned(plan_problem({{50, 0}, {51, 1}, {51, -1}, {52, 0}}, {{0, 0}}), 200);
  EXPECT_EQ(std::count_if(crowd.cables.begin(), crowd.cables.end(), [](const PlanCable& c) { return c.from == none; }),
            1);
  // Two crowds, a transformer place beside each, and digging dear: two transformers.
  GroundMap dear;
  dear.open_dig_per_m = 30;
  const PlanAnswer two = planned(plan_problem({{0, 2}, {2, 2}, {60, 2}, {62, 2}}, {{0, 0}, {60, 0}}, dear), 200);
  EXPECT_EQ(two.units.size(), 2u);
}

TEST(Planner, HoldsWhatIsPinned) {
  for (std::uint64_t seed = 1; seed <= 4; ++seed) {
    PlanProblem problem = plan_problem(scattered(10 + seed, 10, 30), {{0, 0}});
    problem.lamps[3].own_output = true;
    problem.most_wires = 3;
    problem.splice_every_lead = true;
    problem.most_cable_types = 1;
    const PlanAnswer answer = planned(problem, 120, seed);
    expect_whole(problem, answer);
    std::vector<std::uint32_t> outs(answer.cables.size(), 0);
    std::set<std::uint32_t> types;
    std::uint32_t own = none;
    for (const PlanCable& cable : answer.cables) {
      types.insert(cable.type);
      EXPECT_FALSE(cable.ends_in_lamp);
      if (cable.from != none) ++outs[cable.from];
      if (std::find(cable.lamps.begin(), cable.lamps.end(), 3u) != cable.lamps.end()) own = cable.output;
    }
    EXPECT_EQ(types.size(), 1u);
    for (std::size_t c = 0; c < answer.cables.size(); ++c) {
      EXPECT_LE(1 + outs[c] + answer.cables[c].lamps.size(), 3u);
      if (answer.cables[c].output == own) {
        EXPECT_EQ(answer.cables[c].lamps, std::vector<std::uint32_t>{3});
      }
    }
  }
}

TEST(Planner, SaysWhyALampIsLeftOut) {
  GroundMap parted;
  parted.patches.push_back({{{10, -50}, {14, -50}, {14, 50}, {10, 50}}, 90, true, false, false});
  parted.boundary = {{-10, -30}, {30, -30}, {30, 30}, {-10, 30}};
  Planner drive(plan_problem({{5, 0}, {20, 0}}, {{0, 0}}, parted), 1);
  drive.improve({}, 20);
  ASSERT_EQ(drive.refusals().size(), 1u);
  EXPECT_EQ(drive.refusals()[0].lamp, 1u);
  EXPECT_EQ(drive.refusals()[0].why, Refused::no_way);
  EXPECT_EQ(drive.answer().left_out, std::vector<std::uint32_t>{1});

  PlanProblem far = plan_problem({{5, 0}, {400, 0}}, {{0, 0}});
  far.devices_a = {1, 5, 10};
  Planner distant(far, 1);
  distant.improve({}, 20);
  ASSERT_EQ(distant.refusals().size(), 1u);
  EXPECT_EQ(distant.refusals()[0].why, Refused::low_volts);
  EXPECT_LT(distant.refusals()[0].room_v, 0);

  PlanProblem homeless = plan_problem({{5, 0}}, {});
  Planner nowhere(homeless, 1);
  nowhere.improve({}, 20);
  ASSERT_EQ(nowhere.refusals().size(), 1u);
  EXPECT_EQ(nowhere.refusals()[0].why, Refused::no_place);
}

}  // namespace
}  // namespace duskwire::wiring
