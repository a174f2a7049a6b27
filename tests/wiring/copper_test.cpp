// SPDX-License-Identifier: Apache-2.0
// Copper of one output against the full solver: every lamp in its window, nothing thicker than it need be.
#include "wiring/copper.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "electrical/solver.hpp"
#include "wiring/plan_fixture.hpp"
#include "wiring/ways.hpp"

namespace duskwire::wiring {
namespace {

const std::vector<double> taps_v = {12, 13, 14, 15};
constexpr Feed feed{0.013, 0.007, 0, 25, 0, &taps_v};

// A chain of lamps `pitch_m` apart, the first as far from the transformer.
struct Chain {
  explicit Chain(std::uint32_t lamps, double pitch_m) : problem(make(lamps, pitch_m)), layout(problem) {
    std::uint32_t spot = none;
    const std::uint32_t output = layout.new_output(0);
    Ways ways(problem.ground);
    std::uint32_t at = problem.places[0].node;
    for (std::uint32_t i = 0; i < lamps; ++i) {
      ways.start(problem.lamps[i].node, layout, 1);
      while (!ways.reached(at)) ways.next();
      spot = layout.lay(spot, output, ways.way_from(at));
      layout.put(i, spot);
      at = problem.lamps[i].node;
    }
  }
  static PlanProblem make(std::uint32_t lamps, double pitch_m) {
    std::vector<geometry::Point2> points;
    for (std::uint32_t i = 0; i < lamps; ++i) points.push_back({pitch_m * (i + 1), 0});
    return plan_problem(points, {{0, 0}});
  }

  PlanProblem problem;
  Layout layout;
};

// The same chain by the engine, in the low corner; `type_of(i)` is the cable to lamp i.
template <class TypeOf>
std::vector<double> volts(const Chain& chain, double tap_v, TypeOf type_of) {
  const PlanProblem& problem = chain.problem;
  const auto lamps = static_cast<std::uint32_t>(problem.lamps.size());
  electrical::Network network;
  network.transformers.push_back({0.007, 480, 0});
  network.outputs.push_back({0, 0, tap_v, 0.013, 25});
  network.node_count = 1 + 2 * lamps;  // output, joints, lamps on their leads
  for (std::uint32_t i = 0; i < lamps; ++i) {
    const Lay& lay = chain.layout.lays[chain.layout.spots[chain.layout.spot_of_lamp[i]].in];
    const bool last = i + 1 == lamps;
    const double cut_m = lay.way->length_m + (i == 0 ? problem.slack_output_m : problem.slack_splice_m) +
                         (last ? problem.slack_luminaire_m : problem.slack_splice_m);
    const double copper_ohm = problem.cables[type_of(i)].ohm_per_m * cut_m;
    const double contact_ohm = (i == 0 ? 0 : 0.001) + (last ? 0 : 0.001);
    network.segments.push_back({i, i + 1, copper_ohm, copper_ohm, contact_ohm, contact_ohm, false, false, false});
    electrical::Load load = problem.lamps[i].load;
    std::uint32_t node = i + 1;
    if (!last) {
      node = 1 + lamps + i;
      const double lead_ohm = problem.lamps[i].lead_ohm / 2;
      network.segments.push_back({i + 1, node, lead_ohm, lead_ohm, 0.001, 0.001, false, false, false});
    }
    load.plus = {node, electrical::Conductor::a};
    load.minus = {node, electrical::Conductor::b};
    network.loads.push_back(load);
  }
  electrical::Condition low;
  low.mains_factor = problem.extremes.low_mains;
  low.copper_factor = problem.extremes.low_copper;
  return electrical::solve(network, low).value().load_v;
}

TEST(Copper, HoldsEveryLampInItsWindowByTheFullSolver) {
  for (const double pitch_m : {4.0, 6.0, 8.0}) {
    Chain chain(8, pitch_m);
    Copper copper(chain.problem, {true, true, true});
    ASSERT_EQ(copper.size(chain.layout, 0, feed), Hindrance::nothing) << pitch_m;
    const Output& output = chain.layout.outputs[0];
    const auto type_of = [&](std::uint32_t i) {
      return chain.layout.lays[chain.layout.spots[chain.layout.spot_of_lamp[i]].in].type;
    };
    double least_v = 99;
    for (const double v : volts(chain, output.tap_v, type_of)) least_v = std::min(least_v, v);
    EXPECT_GE(least_v, 10.0) << pitch_m;
    EXPECT_NEAR(least_v, 10.0 + chain.problem.safety_v + copper.least_room_v(), 2e-3) << pitch_m;
    EXPECT_LE(output.current_a, 0.8 * output.device_a);
    EXPECT_EQ(output.tap_v, 14) << "15 V would be 15.75 V when mains are high";
  }
}

TEST(Copper, MakesNothingThickerThanItNeedBe) {
  Chain chain(8, 8);
  Copper copper(chain.problem, {true, true, true});
  ASSERT_EQ(copper.size(chain.layout, 0, feed), Hindrance::nothing);
  const auto type_of = [&](std::uint32_t i) {
    return chain.layout.lays[chain.layout.spots[chain.layout.spot_of_lamp[i]].in].type;
  };
  std::uint32_t thickened = 0;
  for (std::uint32_t thin = 0; thin < 8; ++thin) {
    if (type_of(thin) == 0) continue;
    ++thickened;
    const auto thinner = [&](std::uint32_t i) { return type_of(i) - (i == thin ? 1 : 0); };
    const auto v = volts(chain, 14, thinner);
    double loop_ohm = 0.02;
    for (std::uint32_t i = 0; i < 8; ++i) {
      const Lay& lay = chain.layout.lays[chain.layout.spots[chain.layout.spot_of_lamp[i]].in];
      loop_ohm +=
          2 * chain.problem.cables[thinner(i)].ohm_per_m * lay.way->length_m * chain.problem.extremes.low_copper;
    }
    const double short_a = 14 * chain.problem.extremes.low_mains / loop_ohm;
    const bool too_dim = *std::min_element(v.begin(), v.end()) < 10.0 + chain.problem.safety_v;
    EXPECT_TRUE(too_dim || short_a < 1.1 * chain.layout.outputs[0].device_a) << "cable " << thin;
  }
  EXPECT_GT(thickened, 0u);
}

TEST(Copper, SaysWhatStandsInTheWay) {
  Chain far(8, 60);
  EXPECT_EQ(Copper(far.problem, {true, true, true}).size(far.layout, 0, feed), Hindrance::low_volts);
  Chain narrow(3, 4);
  narrow.problem.lamps[1].window_max_v = 12;
  EXPECT_EQ(Copper(narrow.problem, {true, true, true}).size(narrow.layout, 0, feed), Hindrance::tap);
  Chain heavy(8, 4);
  for (PlanLamp& lamp : heavy.problem.lamps) lamp.load.power_va = 60;
  EXPECT_EQ(Copper(heavy.problem, {true, true, true}).size(heavy.layout, 0, feed), Hindrance::current);
  Chain paved(3, 4);
  paved.problem.ground.nodes[paved.problem.lamps[0].node].joint_allowed = false;
  EXPECT_EQ(Copper(paved.problem, {true, true, true}).size(paved.layout, 0, feed), Hindrance::joint_place);
}

TEST(Copper, LetsTheDeviceSeeAShortAtTheFarEnd) {
  Chain chain(1, 150);
  chain.problem.lamps[0].load.power_va = 0.5;  // volts alone would never call for copper
  chain.problem.devices_a = {10};
  Copper copper(chain.problem, {true, true, true});
  ASSERT_EQ(copper.size(chain.layout, 0, feed), Hindrance::far_short);
  Chain nearer(1, 60);
  nearer.problem.lamps[0].load.power_va = 0.5;
  nearer.problem.devices_a = {10};
  Copper thicker(nearer.problem, {true, true, true});
  ASSERT_EQ(thicker.size(nearer.layout, 0, feed), Hindrance::nothing);
  // 14 V at low mains over source and 61.6 m of 14 AWG there and back, hot: 13.3 / (0.02 + 1.156) = 11.3 A; 16 AWG: 7.2
  // A.
  EXPECT_EQ(nearer.layout.lays[0].type, 1u);
}

TEST(Copper, TakesTheLowestTapThatTheCopperAllows) {
  Chain chain(2, 3);
  Copper copper(chain.problem, {true, true, true});
  ASSERT_EQ(copper.size(chain.layout, 0, feed), Hindrance::nothing);
  EXPECT_EQ(chain.layout.outputs[0].tap_v, 14);
  copper.lower_tap(chain.layout, 0, feed);
  EXPECT_EQ(chain.layout.outputs[0].tap_v, 12);
}

}  // namespace
}  // namespace duskwire::wiring
