// SPDX-License-Identifier: Apache-2.0
// Every state of tests/reference/reference_run.csv (computed outside the engine, rounded to 0.01), given as readings:
// the fault that the state was computed for must come out first, with its parameter.
#include <gtest/gtest.h>

#include <map>
#include <set>
#include <tuple>

#include "diagnosis/gardens.hpp"
#include "reference_rows.hpp"

namespace duskwire::diagnosis {
namespace {

using test::add;

constexpr std::uint32_t anything = none - 1;

struct Expected {
  FaultKind kind = FaultKind::sound;
  std::uint32_t element = anything;
  double parameter = 0;  // 0: not looked at
  double tolerance = 0;
};

const std::map<std::string, Expected>& all_expected() {
  static const std::map<std::string, Expected> expected = {
      {"healthy", {FaultKind::sound}},
      {"F5 driver dead", {FaultKind::dead_lamp, 4}},
      {"open between F4 and F5", {FaultKind::open, 4}},
      {"splice at F5 +0.5 ohm", {FaultKind::resistive, 4, 0.5, 0.1}},
      {"splice at F5 +2 ohm", {FaultKind::resistive, 4, 2, 0.3}},
      {"splice at F1 +0.5 ohm", {FaultKind::resistive, 0, 0.5, 0.1}},
      {"mains -8 %", {FaultKind::low_mains, anything, 0.92, 0.01}},
      {"tap 12", {FaultKind::wrong_tap, 0, 12, 0}},
      {"tap 15", {FaultKind::wrong_tap, 0, 15, 0}},
      {"30 VA added at F8", {FaultKind::added_load, 8, 30, 4}},
      {"loop healthy", {FaultKind::sound}},
      {"loop return leg not connected", {FaultKind::open, 8}},
      {"loop one conductor open between F2 and F3", {FaultKind::open_a, 2}},
  };
  return expected;
}

bool is_loop(const std::string& name) { return name.starts_with("loop"); }

// Lowest and highest volts of a case stand for the far and the first lamp of the plain run.
Probe probe_of(const ReferenceRow& row) {
  const std::string quantity = row.text("quantity");
  const std::string place = row.text("place");
  if (quantity == "output_current") return {Quantity::output_a, 0};
  if (quantity == "voltage") return {Quantity::node_v, static_cast<std::uint32_t>(std::stoul(place.substr(1)))};
  if (quantity == "lowest_voltage") return {Quantity::node_v, 8};
  if (quantity == "highest_voltage") return {Quantity::node_v, 1};
  const std::uint32_t leg = place == "leg at F1" ? 0 : 8;
  if (quantity == "conductor_a_current") return {Quantity::cable_a, leg};
  if (quantity == "conductor_b_current") return {Quantity::cable_a, leg, false, true};
  return {Quantity::cable_net_a, leg};
}

struct State {
  std::string name;
  double regulation_min_v = 0;  // some states are computed twice, for lamps that hold their power further down
  bool operator<(const State& other) const {
    return std::tie(name, regulation_min_v) < std::tie(other.name, other.regulation_min_v);
  }
};

electrical::Network network_of(const State& state) {
  electrical::Network network = is_loop(state.name) ? test::reference_loop() : test::reference_run();
  for (electrical::Load& load : network.loads) load.v_regulation_min = state.regulation_min_v;
  return network;
}

std::map<State, FaultProblem> all_problems() {
  std::map<State, FaultProblem> problems;
  for (const ReferenceRow& row : reference_rows("reference_run.csv")) {
    const std::string name = row.text("case");
    const State state{name, row.number("regulation_min_v")};
    const auto [at, fresh] = problems.try_emplace(state, faulty::problem_of(network_of(state)));
    FaultProblem& problem = at->second;
    if (fresh) add(problem, {Quantity::mains_v, 0}, name == "mains -8 %" ? 0.92 : 1.0, 0.004);
    if (fresh && name.starts_with("splice at F1")) add(problem, {Quantity::output_v, 0}, 13.0);
    // Of a loop, extremes name no lamp.
    const std::string quantity = row.text("quantity");
    if (is_loop(name) && (quantity == "lowest_voltage" || quantity == "highest_voltage")) continue;
    add(problem, probe_of(row), row.number("expected"));
  }
  return problems;
}

TEST(ReferenceFaults, EveryStateIsTracedToItsFault) {
  const auto problems = all_problems();
  std::set<std::string> names;
  for (const auto& [state, problem] : problems) {
    names.insert(state.name);
    SCOPED_TRACE(state.name);
    const Expected& expected = all_expected().at(state.name);
    const Answer answer = diagnose(problem);
    const Fault& fault = test::first_fault(answer);
    EXPECT_EQ(fault.kind, expected.kind);
    if (expected.element != anything) {
      EXPECT_EQ(fault.element, expected.element);
    }
    if (expected.parameter > 0) {
      EXPECT_NEAR(fault.parameter, expected.parameter, expected.tolerance);
    }
    EXPECT_EQ(answer.verdict == Verdict::sound, expected.kind == FaultKind::sound);
    EXPECT_NE(answer.verdict, Verdict::misfit);
  }
  EXPECT_EQ(names.size(), all_expected().size()) << "a state without rows";
}

TEST(ReferenceFaults, AHealthyRunIsInToleranceAndASpliceIsNot) {
  const auto problems = all_problems();
  for (const Compared& one : diagnose(problems.at({"healthy", 10})).compared) EXPECT_TRUE(one.in_tolerance);
  const Answer splice = diagnose(problems.at({"splice at F5 +0.5 ohm", 10}));
  const FaultProblem& problem = problems.at({"splice at F5 +0.5 ohm", 10});
  for (const Compared& one : splice.compared) {
    const Probe& probe = problem.observations[one.observation].probe;
    if (probe.quantity != Quantity::node_v) continue;
    EXPECT_EQ(one.in_tolerance, probe.index < 5) << "F" << probe.index;
    EXPECT_NEAR(one.explained, problem.observations[one.observation].value, 0.03) << "F" << probe.index;
  }
}

}  // namespace
}  // namespace duskwire::diagnosis
