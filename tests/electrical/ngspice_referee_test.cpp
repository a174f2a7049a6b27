// SPDX-License-Identifier: Apache-2.0
// An independent referee: 200 seeded random networks are written as circuits, solved by ngspice as a separate process,
// and compared with the solver at every node, within 1e-6 V.
//
// ngspice starts without any knowledge of our answer: it walks from a twentieth of the load to the whole load, each
// step from the one before, which keeps to the branch with the highest volts. Where its iteration does not get through
// (after the volts of some lamps have collapsed), or falls to a lower branch, it walks in finer steps; where that fails
// too, it is started at our answer and must stay there. The last test below says how many networks went which way.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "electrical/audit.hpp"
#include "electrical/ngspice_netlist.hpp"
#include "electrical/ngspice_process.hpp"
#include "electrical/random_networks.hpp"
#include "electrical/solver.hpp"

namespace duskwire::electrical::testing {
namespace {

constexpr std::uint64_t first_seed = 20000;
constexpr std::size_t network_count = 200;
constexpr std::size_t batch_size = 20;
constexpr double tolerance_v = 1e-6;
constexpr int coarse_steps = 20;
constexpr int fine_steps = 100;

struct Ours {
  RandomCase random;
  Solution solution;
  Potentials potentials;
};

Ours solve_case(std::uint64_t seed) {
  Ours ours{random_case(seed), {}, {}};
  const auto prepared = prepare(ours.random.network);
  if (!prepared) return ours;
  const WorkspacePtr workspace = make_workspace(*prepared.value());
  ours.solution = solve(*prepared.value(), ours.random.condition, *workspace);
  ours.potentials = potentials(*prepared.value(), ours.random.condition, *workspace);
  return ours;
}

std::vector<Result<std::vector<double>>> referee(const std::vector<const Ours*>& cases, int steps) {
  std::vector<Result<std::vector<double>>> answers;
  for (std::size_t first = 0; first < cases.size(); first += batch_size) {
    std::vector<SpiceJob> jobs;
    for (std::size_t i = first; i < std::min(first + batch_size, cases.size()); ++i) {
      const RandomCase& random = cases[i]->random;
      const Potentials* start = steps == 1 ? &cases[i]->potentials : nullptr;
      jobs.push_back({ngspice_netlist(random.network, random.condition, start), random.network.node_count, steps});
    }
    for (auto& answer : run_ngspice(jobs)) answers.push_back(std::move(answer));
  }
  return answers;
}

double worst_gap_v(const std::vector<double>& theirs_v, const std::vector<double>& ours_v) {
  double worst = 0;
  for (std::size_t node = 0; node < ours_v.size(); ++node) {
    const double gap = std::abs(theirs_v[node] - ours_v[node]);
    if (!(gap <= worst)) worst = gap;
  }
  return worst;
}

// The whole comparison, made once for all tests of this file.
struct Verdict {
  std::vector<Ours> cases;
  std::vector<double> gap_v;         // in the end
  std::vector<std::string> trouble;  // why there is no agreement; empty where there is
  std::size_t coarse = 0;
  std::size_t fine = 0;
  std::size_t from_ours = 0;
};

// One round of ngspice over the cases that no round has settled.
std::size_t round(Verdict& verdict, int steps) {
  std::vector<std::size_t> open;
  std::vector<const Ours*> cases;
  for (std::size_t i = 0; i < verdict.cases.size(); ++i) {
    if (verdict.trouble[i].empty()) continue;
    open.push_back(i);
    cases.push_back(&verdict.cases[i]);
  }
  const auto answers = referee(cases, steps);
  std::size_t settled = 0;
  for (std::size_t k = 0; k < open.size(); ++k) {
    const std::size_t i = open[k];
    if (!answers[k]) {
      verdict.trouble[i] += fmt::format("\n  {} steps: {}", steps, answers[k].error().message);
      continue;
    }
    verdict.gap_v[i] = worst_gap_v(answers[k].value(), verdict.cases[i].solution.node_v);
    if (verdict.gap_v[i] <= tolerance_v) {
      verdict.trouble[i].clear();
      ++settled;
    } else {
      verdict.trouble[i] += fmt::format("\n  {} steps: {} V apart", steps, verdict.gap_v[i]);
    }
  }
  return settled;
}

const Verdict& verdict() {
  static const Verdict once = [] {
    Verdict made;
    for (std::size_t i = 0; i < network_count; ++i) made.cases.push_back(solve_case(first_seed + i));
    made.gap_v.assign(network_count, 0.0);
    made.trouble.assign(network_count, "not compared");
    made.coarse = round(made, coarse_steps);
    made.fine = round(made, fine_steps);
    made.from_ours = round(made, 1);
    return made;
  }();
  return once;
}

TEST(NgspiceReferee, AgreesAtEveryNodeOfEveryNetworkWithinAMicrovolt) {
  for (std::size_t i = 0; i < network_count; ++i) {
    EXPECT_TRUE(verdict().trouble[i].empty()) << "seed " << first_seed + i << ": " << verdict().trouble[i];
  }
}

TEST(NgspiceReferee, ComparesOnlyAnswersThatMeetKirchhoffsLaw) {
  for (const Ours& ours : verdict().cases) {
    EXPECT_TRUE(ours.solution.converged) << "seed " << ours.random.seed;
    const Audit found = audit(ours.random.network, ours.random.condition, ours.solution, ours.potentials);
    EXPECT_LE(found.kirchhoff_a, 1e-9) << "seed " << ours.random.seed;
    EXPECT_LE(found.load_law_a, 1e-9) << "seed " << ours.random.seed;
  }
}

TEST(NgspiceReferee, FindsNearlyAllAnswersOnItsOwn) {
  fmt::print("ngspice: {} by {} steps, {} by {} steps, {} started at our answer\n", verdict().coarse, coarse_steps,
             verdict().fine, fine_steps, verdict().from_ours);
  EXPECT_GE(verdict().coarse + verdict().fine, network_count * 95 / 100);
}

TEST(NgspiceReferee, MeetsEveryKindOfNetworkAndEveryKindOfLamp) {
  std::size_t loop = 0, open_in_tree = 0, open_in_loop = 0, bridge = 0, crossed = 0, tie = 0, hub = 0, shared = 0;
  std::size_t dimmed = 0, across = 0, reversed = 0, kind[4] = {}, state[4] = {};
  for (const Ours& ours : verdict().cases) {
    const Traits& traits = ours.random.traits;
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
    for (const Load& load : ours.random.network.loads) ++kind[static_cast<std::size_t>(load.kind)];
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
  Ours ours = solve_case(first_seed);
  ours.random.network.outputs[0].r_own_ohm *= 1.001;
  const auto answers = referee({&ours}, coarse_steps);
  ASSERT_TRUE(answers[0]) << answers[0].error().message;
  EXPECT_GT(worst_gap_v(answers[0].value(), ours.solution.node_v), tolerance_v);
}

}  // namespace
}  // namespace duskwire::electrical::testing
