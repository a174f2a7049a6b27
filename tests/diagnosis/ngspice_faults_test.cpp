// SPDX-License-Identifier: Apache-2.0
// What the diagnosis believes that a faulted network settles to, against ngspice: 100 seeded gardens of every shape
// with one or two faults each, tripped devices out, compared at every node within 1e-6 V. Nobody reads a right place
// out of wrong volts.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <set>
#include <vector>

#include "diagnosis/state.hpp"
#include "electrical/ngspice_referee.hpp"
#include "faulty/garden.hpp"
#include "faulty/problem_of.hpp"
#include "faulty/truth.hpp"

namespace duskwire::diagnosis {
namespace {

namespace referee = electrical::testing;
using faulty::Shape;

constexpr std::size_t network_count = 100;

struct FaultedGarden {
  std::vector<Fault> faults;
  State state;
  referee::Ours ours;
};

bool is_live(const State& state) {
  const auto& outputs = state.faulted.network.outputs;
  return std::any_of(outputs.begin(), outputs.end(), [](const auto& output) { return output.emf_v > 0; });
}

// Gardens in which everything is dark say nothing: another is made in their place.
const std::vector<FaultedGarden>& gardens() {
  static const std::vector<FaultedGarden> once = [] {
    std::vector<FaultedGarden> made;
    wiring::Dice dice(7301);
    for (std::size_t i = 0; made.size() < network_count; ++i) {
      const auto shape = static_cast<Shape>(i % 4);
      const faulty::Garden garden = faulty::make_garden(shape, 6 + dice.below(15), dice);
      const FaultProblem plan = faulty::problem_of(garden.network, {}, garden.leads);
      const faulty::Truth truth = faulty::make_truth(plan, 1 + i / 4 % 2, {}, dice);
      State state = settle(truth.problem, truth.faults);
      if (!is_live(state)) continue;
      referee::Ours ours = referee::solved(state.faulted.network, state.faulted.condition);
      made.push_back({truth.faults, std::move(state), std::move(ours)});
    }
    return made;
  }();
  return once;
}

TEST(NgspiceFaults, AgreesAtEveryNodeOfAHundredFaultedNetworks) {
  std::vector<const referee::Ours*> all;
  for (const FaultedGarden& garden : gardens()) all.push_back(&garden.ours);
  const referee::Verdict verdict = referee::judged_by_ngspice(all);
  for (std::size_t i = 0; i < network_count; ++i) {
    EXPECT_TRUE(verdict.trouble[i].empty()) << "garden " << i << ": " << verdict.trouble[i];
  }
  fmt::print("ngspice: {} by coarse steps, {} by fine ones, {} started at our answer\n", verdict.coarse, verdict.fine,
             verdict.from_ours);
  EXPECT_GE(verdict.coarse + verdict.fine, network_count * 95 / 100);
}

// What is compared is what the diagnosis reads from, not a second solution beside it.
TEST(NgspiceFaults, TheStateIsTheSolutionThatWasCompared) {
  for (const FaultedGarden& garden : gardens()) {
    ASSERT_EQ(garden.state.solution.node_v.size(), garden.ours.solution.node_v.size());
    EXPECT_LE(referee::worst_gap_v(garden.state.solution.node_v, garden.ours.solution.node_v), 1e-9);
  }
}

TEST(NgspiceFaults, MeetsFaultsOfManyKinds) {
  std::set<FaultKind> kinds;
  std::size_t tripped = 0, two = 0;
  for (const FaultedGarden& garden : gardens()) {
    for (const Fault& fault : garden.faults) kinds.insert(fault.kind);
    tripped += std::count(garden.state.tripped.begin(), garden.state.tripped.end(), true) > 0 ? 1 : 0;
    two += garden.faults.size() == 2 ? 1 : 0;
  }
  EXPECT_GE(kinds.size(), 8U);
  EXPECT_GE(tripped, 5U);
  EXPECT_GE(two, 30U);
}

}  // namespace
}  // namespace duskwire::diagnosis
