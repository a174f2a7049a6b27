// SPDX-License-Identifier: Apache-2.0
// What must come out when one thing is changed in a sound network, on seeded random ones: thicker copper and higher
// mains never lower the lowest lamp; the margins are where the first lamp leaves regulation; the short-circuit current
// and the volts of a lone lamp are what solving that very network gives.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

#include "electrical/load_model.hpp"
#include "electrical/loads.hpp"
#include "electrical/random_networks.hpp"
#include "electrical/solver.hpp"

namespace duskwire::electrical::testing {
namespace {

// Trees of regulated LEDs, loaded lightly enough that most networks are sound.
Mix sound_trees() {
  Mix mix;
  mix.loops = mix.opens = mix.bridges = mix.crossed = mix.ties = mix.islands = false;
  mix.only_regulated = true;
  mix.power_scale_low = 0.05;
  mix.power_scale_high = 0.4;
  return mix;
}

bool lit(const RandomCase& random, std::size_t load) {
  return random.condition.load_level.empty() || random.condition.load_level[load] > 0;
}

bool all_regulated(const RandomCase& random, const Solution& solution) {
  for (std::size_t i = 0; i < solution.load_state.size(); ++i) {
    if (lit(random, i) && std::abs(solution.load_v[i]) < holding_v(random.network.loads[i])) return false;
  }
  return true;
}

double lowest_v(const Solution& solution) {
  double lowest = std::numeric_limits<double>::infinity();
  for (const double v : solution.load_v) lowest = std::min(lowest, std::abs(v));
  return lowest;
}

Solution solved(const Network& network, const Condition& condition) {
  auto solution = solve(network, condition);
  EXPECT_TRUE(solution) << solution.error().message;
  return solution ? std::move(solution).value() : Solution{};
}

// Calls `check` with each sound network among the first `count` seeds; true if there were at least `least` of them.
template <class Check>
void for_sound_trees(std::uint64_t first_seed, std::uint64_t count, int least, const Check& check) {
  int met = 0;
  for (std::uint64_t seed = first_seed; seed < first_seed + count; ++seed) {
    const RandomCase random = random_case(seed, sound_trees());
    if (random.network.loads.empty()) continue;
    const Solution before = solved(random.network, random.condition);
    if (!all_regulated(random, before)) continue;
    ++met;
    check(random, before);
  }
  EXPECT_GE(met, least);
}

TEST(Monotony, ThickerCableNeverLowersTheLowestLamp) {
  for_sound_trees(60000, 1000, 500, [](const RandomCase& random, const Solution& before) {
    Dice dice(random.seed);
    RandomCase thicker = random;
    Segment& segment = thicker.network.segments[dice.below(static_cast<std::uint32_t>(random.network.segments.size()))];
    const double factor = dice.uniform(0.1, 0.95);
    segment.copper_a_ohm *= factor;
    segment.copper_b_ohm *= factor;
    EXPECT_GE(lowest_v(solved(thicker.network, thicker.condition)), lowest_v(before) - 1e-9) << "seed " << random.seed;
  });
}

TEST(Monotony, HigherMainsNeverLowersAnyLamp) {
  for_sound_trees(61000, 500, 250, [](const RandomCase& random, const Solution& before) {
    Condition higher = random.condition;
    higher.mains_factor *= 1.03;
    const Solution after = solved(random.network, higher);
    for (std::size_t i = 0; i < after.load_v.size(); ++i) {
      EXPECT_GE(std::abs(after.load_v[i]), std::abs(before.load_v[i]) - 1e-9) << "seed " << random.seed;
    }
  });
}

// Of a network that its lamps pull out of regulation, what is found with a little more load is also above a steady
// state of less: were the highest missed, these would cross.
TEST(Monotony, LessLoadNeverLowersAnyPlaceOfAnOverloadedTree) {
  Mix mix = sound_trees();
  mix.power_scale_low = 1;
  mix.power_scale_high = 6;
  int overloaded = 0;
  for (std::uint64_t seed = 61500; seed < 62000; ++seed) {
    const RandomCase random = random_case(seed, mix);
    Condition more = random.condition;
    more.load_factor *= 1.02;
    const Solution less = solved(random.network, random.condition);
    const Solution after = solved(random.network, more);
    overloaded += !all_regulated(random, less);
    for (std::size_t node = 0; node < less.node_v.size(); ++node) {
      EXPECT_GE(less.node_v[node], after.node_v[node] - 1e-6) << "seed " << seed << " node " << node;
    }
  }
  EXPECT_GE(overloaded, 300);
}

using FindMargin = Margin (*)(const Prepared&, const Condition&, Workspace&);

void expect_edge(const RandomCase& random, FindMargin find_margin, double Condition::*grown) {
  const auto prepared = prepare(random.network);
  ASSERT_TRUE(prepared);
  const WorkspacePtr workspace = make_workspace(*prepared.value());
  const Margin margin = find_margin(*prepared.value(), random.condition, *workspace);
  EXPECT_GE(margin.factor, 1.0) << "seed " << random.seed;
  if (margin.beyond_cap) return;
  Condition condition = random.condition;
  condition.*grown = random.condition.*grown * margin.factor;
  EXPECT_TRUE(all_regulated(random, solve(*prepared.value(), condition, *workspace))) << "seed " << random.seed;
  condition.*grown = random.condition.*grown * margin.factor * 1.0001;
  EXPECT_FALSE(all_regulated(random, solve(*prepared.value(), condition, *workspace))) << "seed " << random.seed;
}

TEST(Monotony, LoadMarginIsWhereTheFirstLampLeavesRegulation) {
  for_sound_trees(62000, 300, 150, [](const RandomCase& random, const Solution&) {
    expect_edge(random, load_margin, &Condition::load_factor);
  });
}

TEST(Monotony, LengthMarginIsWhereTheFirstLampLeavesRegulation) {
  for_sound_trees(63000, 300, 150, [](const RandomCase& random, const Solution&) {
    expect_edge(random, length_margin, &Condition::copper_factor);
  });
}

// A bridge of next to nothing in the network without lamps carries the short-circuit current. (The least bridge is a
// microohm, which is up to 2e-4 of what lies before it in these networks.)
TEST(Monotony, ShortCircuitCurrentIsThatOfABoltedBridge) {
  int compared = 0;
  for (std::uint64_t seed = 64000; seed < 64300; ++seed) {
    const RandomCase random = random_case(seed);
    const auto prepared = prepare(random.network);
    ASSERT_TRUE(prepared);
    const WorkspacePtr workspace = make_workspace(*prepared.value());
    const ShortCircuit shorts = short_circuit(*prepared.value(), random.condition, *workspace);
    Dice dice(seed);
    for (int i = 0; i < 3; ++i) {
      Network bolted = random.network;
      bolted.loads.clear();
      const std::uint32_t node = dice.below(bolted.node_count);
      bolted.bridges.push_back({{node, Conductor::a}, {node, Conductor::b}, 0.0});
      Condition condition = random.condition;
      condition.load_level.clear();
      const double bridge_a = std::abs(solved(bolted, condition).bridge_a.back());
      EXPECT_NEAR(shorts.node_a[node], bridge_a, 3e-4 * bridge_a + 1e-6) << "seed " << seed << " node " << node;
      compared += bridge_a > 1;
    }
  }
  EXPECT_GE(compared, 500);
}

TEST(Monotony, LoneLampSeesWhatItSeesWhenAllOthersAreOff) {
  int compared = 0;
  for (std::uint64_t seed = 65000; seed < 65300; ++seed) {
    const RandomCase random = random_case(seed);
    if (random.network.loads.empty()) continue;
    const auto prepared = prepare(random.network);
    ASSERT_TRUE(prepared);
    const WorkspacePtr workspace = make_workspace(*prepared.value());
    Condition condition = random.condition;
    condition.load_level.clear();
    const std::vector<double> lone_v = lone_lamp_v(*prepared.value(), condition, *workspace);
    const std::uint32_t lamp = Dice(seed).below(static_cast<std::uint32_t>(random.network.loads.size()));
    condition.load_level.assign(random.network.loads.size(), 0.0f);
    condition.load_level[lamp] = 1.0f;
    // Lamps switched off still leak 1 microsiemens each below their cut-off; the lone lamp is reckoned without them.
    EXPECT_NEAR(lone_v[lamp], solve(*prepared.value(), condition, *workspace).load_v[lamp], 1e-4)
        << "seed " << seed << " lamp " << lamp;
    ++compared;
  }
  EXPECT_GE(compared, 250);
}

}  // namespace
}  // namespace duskwire::electrical::testing
