// SPDX-License-Identifier: Apache-2.0
// The solver against ngspice on 200 seeded random networks, at every node, within 1e-6 V. The last test but one says
// that they were of every kind.
#include "electrical/ngspice_referee.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <vector>

#include "electrical/audit.hpp"
#include "electrical/random_networks.hpp"

namespace duskwire::electrical::testing {
namespace {

constexpr std::uint64_t first_seed = 20000;
constexpr std::size_t network_count = 200;

struct Case {
  RandomCase random;
  Ours ours;
};

Case make_case(std::uint64_t seed) {
  RandomCase random = random_case(seed);
  Ours ours = solved(random.network, random.condition);
  return {std::move(random), std::move(ours)};
}

// Made once for all tests of this file.
const std::vector<Case>& cases() {
  static const std::vector<Case> once = [] {
    std::vector<Case> made;
    for (std::size_t i = 0; i < network_count; ++i) made.push_back(make_case(first_seed + i));
    return made;
  }();
  return once;
}

const Verdict& verdict() {
  static const Verdict once = [] {
    std::vector<const Ours*> all;
    for (const Case& one : cases()) all.push_back(&one.ours);
    return judged_by_ngspice(all);
  }();
  return once;
}

TEST(NgspiceReferee, AgreesAtEveryNodeOfEveryNetworkWithinAMicrovolt) {
  for (std::size_t i = 0; i < network_count; ++i) {
    EXPECT_TRUE(verdict().trouble[i].empty()) << "seed " << first_seed + i << ": " << verdict().trouble[i];
  }
}

TEST(NgspiceReferee, ComparesOnlyAnswersThatMeetKirchhoffsLaw) {
  for (const auto& [random, ours] : cases()) {
    EXPECT_TRUE(ours.solution.converged) << "seed " << random.seed;
    const Audit found = audit(ours.network, ours.condition, ours.solution, ours.potentials);
    EXPECT_LE(found.kirchhoff_a, 1e-9) << "seed " << random.seed;
    EXPECT_LE(found.load_law_a, 1e-9) << "seed " << random.seed;
  }
}

TEST(NgspiceReferee, FindsNearlyAllAnswersOnItsOwn) {
  fmt::print("ngspice: {} by coarse steps, {} by fine ones, {} started at our answer\n", verdict().coarse,
             verdict().fine, verdict().from_ours);
  EXPECT_GE(verdict().coarse + verdict().fine, network_count * 95 / 100);
}

TEST(NgspiceReferee, MeetsEveryKindOfNetworkAndEveryKindOfLamp) {
  std::size_t loop = 0, open_in_tree = 0, open_in_loop = 0, bridge = 0, crossed = 0, tie = 0, hub = 0, shared = 0;
  std::size_t dimmed = 0, across = 0, reversed = 0, kind[4] = {}, state[4] = {};
  for (const auto& [random, ours] : cases()) {
    const Traits& traits = random.traits;
    loop += traits.loop;
    open_in_tree += traits.open_in_tree;
    open_in_loop += traits.open_in_loop;
    bridge += traits.bridge;
    crossed += traits.crossed;
    tie += traits.tie;
    hub += traits.hub;
    shared += traits.shared_resistance;
    dimmed += traits.dimmed;
    across += traits.lamp_across_nodes;
    reversed += traits.reversed_lamp;
    for (const Load& load : ours.network.loads) ++kind[static_cast<std::size_t>(load.kind)];
    for (const LampState lamp : ours.solution.load_state) ++state[static_cast<std::size_t>(lamp)];
  }
  for (const std::size_t count :
       {loop, open_in_tree, open_in_loop, bridge, crossed, tie, hub, shared, dimmed, across, reversed}) {
    EXPECT_GE(count, 10u);
  }
  for (const std::size_t count : kind) EXPECT_GE(count, 500u);
  for (const std::size_t count : state) EXPECT_GE(count, 200u);
}

// The referee itself can say no: a circuit with one resistance changed by a thousandth disagrees.
TEST(NgspiceReferee, NoticesAThousandthOfOneResistance) {
  Ours ours = make_case(first_seed).ours;
  ours.network.outputs[0].r_own_ohm *= 1.001;
  const auto answers = ask_ngspice({&ours}, coarse_steps);
  ASSERT_TRUE(answers[0]) << answers[0].error().message;
  EXPECT_GT(worst_gap_v(answers[0].value(), ours.solution.node_v), referee_tolerance_v);
}

}  // namespace
}  // namespace duskwire::electrical::testing
