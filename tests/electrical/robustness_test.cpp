// SPDX-License-Identifier: Apache-2.0
// Networks that nobody should draw and somebody will: each has a defined answer or a clear problem, never a NaN, a hang
// or a crash. Expected volts and amperes are worked out by hand beside each case.
#include <gtest/gtest.h>

#include <chrono>
#include <cmath>
#include <limits>
#include <string>

#include "electrical/audit.hpp"
#include "electrical/random_networks.hpp"
#include "electrical/solver.hpp"

namespace duskwire::electrical::testing {
namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();
constexpr double nan = std::numeric_limits<double>::quiet_NaN();

Load led(std::uint32_t node, double va) {
  Load load;
  load.plus = {node, Conductor::a};
  load.minus = {node, Conductor::b};
  load.power_va = va;
  load.v_cut_off = 6;
  load.v_regulation_min = 9;
  load.v_max = 15;
  return load;
}

Load resistor(Terminal plus, Terminal minus, double ohm) {
  Load load;
  load.plus = plus;
  load.minus = minus;
  load.kind = LoadKind::resistive;
  load.rated_v = 12;
  load.power_va = 12.0 * 12.0 / ohm;
  return load;
}

Segment cable(std::uint32_t from, std::uint32_t to, double conductor_ohm) {
  Segment segment;
  segment.from = from;
  segment.to = to;
  segment.copper_a_ohm = segment.copper_b_ohm = conductor_ohm;
  return segment;
}

// One output at node 0, 12 V behind 0.1 ohm, and nodes 0 ... count - 1 without cables.
Network supply(std::uint32_t node_count, double emf_v = 12, double r_ohm = 0.1) {
  Network network;
  network.node_count = node_count;
  network.transformers.push_back({});
  network.outputs.push_back({.node = 0, .transformer = 0, .emf_v = emf_v, .r_own_ohm = r_ohm, .limit_a = 25});
  return network;
}

// Solves, and checks what must hold whatever the network is.
Solution sound(const Network& network, const Condition& condition = {}) {
  const auto prepared = prepare(network);
  EXPECT_TRUE(prepared) << (prepared ? "" : prepared.error().message);
  if (!prepared) return {};
  const WorkspacePtr workspace = make_workspace(*prepared.value());
  Solution solution = solve(*prepared.value(), condition, *workspace);
  const Audit found = audit(network, condition, solution, potentials(*prepared.value(), condition, *workspace));
  EXPECT_TRUE(solution.converged);
  EXPECT_TRUE(found.finite);
  EXPECT_LE(found.kirchhoff_a, 1e-9);
  EXPECT_EQ(found.wrong_state, "");
  return solution;
}

// The pointers of the errors, one after the other (one pointer once, though it may break two rules).
std::string errors_of(const Network& network) {
  std::string pointers;
  for (const Problem& problem : validate(network)) {
    if (problem.severity != Severity::error) continue;
    EXPECT_FALSE(problem.message.empty());
    EXPECT_FALSE(problem.expected.empty());
    if (!pointers.ends_with(problem.pointer)) pointers += (pointers.empty() ? "" : " ") + problem.pointer;
  }
  EXPECT_EQ(prepare(network).ok(), pointers.empty());
  EXPECT_EQ(solve(network).ok(), pointers.empty());
  return pointers;
}

TEST(Robustness, NothingAtAllIsSolved) {
  const Solution solution = sound({});
  EXPECT_TRUE(solution.node_v.empty());
}

TEST(Robustness, ANodeWithoutSupplyReadsZero) {
  Network network;
  network.node_count = 1;
  EXPECT_EQ(sound(network).node_v[0], 0.0);
}

TEST(Robustness, WithoutLampsEveryNodeReadsNoLoadVolts) {
  Network network = supply(3);
  network.segments = {cable(0, 1, 0.2), cable(1, 2, 0.3)};
  const Solution solution = sound(network);
  for (const double v : solution.node_v) EXPECT_DOUBLE_EQ(v, 12.0);
  EXPECT_EQ(solution.output_a[0], 0.0);
}

// V = 12 - 0.1 I, V I = 12: V = (12 + sqrt(144 - 4.8)) / 2.
TEST(Robustness, OneLampAtTheTerminals) {
  Network network = supply(1);
  network.loads = {led(0, 12)};
  const Solution solution = sound(network);
  EXPECT_NEAR(solution.load_v[0], 0.5 * (12 + std::sqrt(139.2)), 1e-9);
  EXPECT_EQ(solution.load_state[0], LampState::regulated);
}

TEST(Robustness, AnIslandIsDarkAndNamed) {
  Network network = supply(3);
  network.segments = {cable(1, 2, 0.1)};
  network.loads = {led(0, 4), led(2, 4)};
  const Solution solution = sound(network);
  EXPECT_EQ(solution.load_state[0], LampState::regulated);
  EXPECT_EQ(solution.load_state[1], LampState::off);
  EXPECT_EQ(solution.load_v[1], 0.0);
  const Problems problems = validate(network);
  ASSERT_EQ(problems.size(), 1u);
  EXPECT_EQ(problems[0].severity, Severity::warning);
  EXPECT_EQ(problems[0].pointer, "/loads/1");
}

TEST(Robustness, ACableOfNoLengthDropsNothingAndCarriesItsCurrent) {
  Network network = supply(2);
  network.segments = {cable(0, 1, 0)};
  network.loads = {resistor({1, Conductor::a}, {1, Conductor::b}, 5.9)};
  const Solution solution = sound(network);
  EXPECT_NEAR(solution.node_v[1], 11.8, 1e-9);  // 12 V x 5.9 / 6.0
  EXPECT_NEAR(solution.node_v[0], solution.node_v[1], 1e-12);
  EXPECT_NEAR(solution.segment_a_a[0], 2.0, 1e-9);
  EXPECT_NEAR(solution.segment_b_a[0], -2.0, 1e-9);
}

TEST(Robustness, ARingOfCablesOfNoLength) {
  Network network = supply(3);
  network.segments = {cable(0, 1, 0), cable(1, 2, 0), cable(2, 0, 0)};
  network.loads = {resistor({2, Conductor::a}, {2, Conductor::b}, 5.9)};
  const Solution solution = sound(network);
  for (const double v : solution.node_v) EXPECT_NEAR(v, 11.8, 1e-9);
}

TEST(Robustness, RefusesResistancesThatNoPartCanHave) {
  for (const double bad : {-0.1, nan, infinity, -infinity}) {
    Network network = supply(2);
    network.segments = {cable(0, 1, 0.1)};
    network.segments[0].copper_a_ohm = network.segments[0].contact_b_ohm = bad;
    network.outputs[0].r_own_ohm = bad;
    network.transformers[0].r_shared_ohm = bad;
    network.bridges.push_back({{0, Conductor::a}, {0, Conductor::b}, bad});
    EXPECT_EQ(errors_of(network),
              "/segments/0/copper_a_ohm /segments/0/contact_b_ohm /transformers/0/r_shared_ohm /outputs/0/r_own_ohm "
              "/bridges/0/r_ohm")
        << bad;
  }
}

TEST(Robustness, RefusesReferencesToWhatIsNotThere) {
  Network network = supply(1);
  network.segments = {cable(0, 7, 0.1)};
  network.loads = {led(8, 4)};
  network.outputs.push_back({.node = 9, .transformer = 3, .emf_v = 12});
  network.bridges.push_back({{0, Conductor::a}, {10, Conductor::b}, 1});
  EXPECT_EQ(errors_of(network),
            "/segments/0/to /loads/0/plus /loads/0/minus /outputs/1/node /outputs/1/transformer /bridges/0/q");
}

TEST(Robustness, RefusesLampsThatNoLabelDescribes) {
  Network network = supply(1);
  network.loads.assign(6, led(0, 4));
  network.loads[0].power_va = -1;
  network.loads[1].power_va = nan;
  network.loads[2].v_cut_off = 10;  // above its regulation range
  network.loads[3].kind = LoadKind::filament;
  network.loads[3].rated_v = 0;
  network.loads[4].v_regulation_min = infinity;
  network.loads[5].kind = LoadKind::constant_current_led;
  network.loads[5].rated_v = -12;
  EXPECT_EQ(errors_of(network),
            "/loads/0/power_va /loads/1/power_va /loads/2/v_cut_off /loads/3/rated_v /loads/4/v_regulation_min "
            "/loads/5/rated_v");
}

TEST(Robustness, RefusesACableFromANodeToItself) {
  Network network = supply(1);
  network.segments = {cable(0, 0, 0.1)};
  EXPECT_EQ(errors_of(network), "/segments/0/to");
}

// Windings are isolated from each other: with one wire between them no current can return.
TEST(Robustness, ALampAcrossTwoIsolatedOutputsIsDark) {
  Network network = supply(2);
  network.outputs.push_back({.node = 1, .transformer = 0, .emf_v = 15, .r_own_ohm = 0.1});
  Load across = led(0, 4);
  across.minus.node = 1;
  network.loads = {across};
  const Solution solution = sound(network);
  EXPECT_NEAR(solution.load_v[0], 0, 1e-6);
  EXPECT_EQ(solution.load_state[0], LampState::off);
  EXPECT_NEAR(solution.node_v[0], 12, 1e-9);
  EXPECT_NEAR(solution.node_v[1], 15, 1e-9);
  EXPECT_FALSE(validate(network).empty());
}

// With their B conductors joined, a lamp from A of one to B of the other sees the whole first output.
TEST(Robustness, ALampAcrossTwoOutputsWithACommonConductor) {
  Network network = supply(2);
  network.outputs.push_back({.node = 1, .transformer = 0, .emf_v = 15, .r_own_ohm = 0.1});
  network.bridges.push_back({{0, Conductor::b}, {1, Conductor::b}, 0.1});
  network.loads = {resistor({0, Conductor::a}, {1, Conductor::b}, 5.8)};
  const Solution solution = sound(network);
  EXPECT_NEAR(solution.load_a[0], 2.0, 1e-8);  // 12 / (0.1 + 5.8 + 0.1)
  EXPECT_NEAR(solution.output_a[1], 0.0, 1e-8);
}

TEST(Robustness, ADeadShortAtTheTerminals) {
  Network network = supply(2);
  network.segments = {cable(0, 1, 0.1)};
  network.loads = {led(1, 4)};
  network.bridges.push_back({{0, Conductor::a}, {0, Conductor::b}, 0});
  const Solution solution = sound(network);
  EXPECT_NEAR(solution.output_a[0], 120, 0.01);  // 12 V / 0.1 ohm, less a microhm
  EXPECT_EQ(solution.load_state[0], LampState::off);
}

TEST(Robustness, ADeadShortOfAnIdealSource) {
  Network network = supply(2, 12, 0);
  network.segments = {cable(0, 1, 0)};
  network.bridges.push_back({{1, Conductor::a}, {1, Conductor::b}, 0});
  const auto solution = solve(network);
  ASSERT_TRUE(solution);
  EXPECT_TRUE(std::isfinite(solution.value().output_a[0]));
  EXPECT_GT(solution.value().output_a[0], 1e6);
}

// The same strand to the same terminal, or else: A meets B through the ring of 0.4 ohm a side.
TEST(Robustness, ACrossedLoopIsADeadShort) {
  Network network = supply(3);
  network.segments = {cable(0, 1, 0.1), cable(1, 2, 0.1), cable(2, 0, 0.1)};
  network.segments[2].crossed = true;
  network.loads = {led(1, 4), led(2, 4)};
  const Solution solution = sound(network);
  // Each way round is 3 x 0.1 ohm from A to B, two in parallel: 12 / (0.1 + 0.15).
  EXPECT_NEAR(solution.output_a[0], 48, 1e-4);
  EXPECT_EQ(solution.load_state[0], LampState::off);
}

TEST(Robustness, TwoOutputsTiedTogetherCirculate) {
  Network network = supply(2);
  network.outputs.push_back({.node = 1, .transformer = 0, .emf_v = 14, .r_own_ohm = 0.1});
  network.segments = {cable(0, 1, 0.1)};
  const Solution solution = sound(network);
  EXPECT_NEAR(solution.output_a[1], 5.0, 1e-9);  // (14 - 12) / (0.1 + 0.1 + 0.2)
  EXPECT_NEAR(solution.output_a[0], -5.0, 1e-9);
}

TEST(Robustness, TwoIdealOutputsTiedByNothingGiveFiniteNumbers) {
  Network network = supply(2, 12, 0);
  network.outputs.push_back({.node = 1, .transformer = 0, .emf_v = 14, .r_own_ohm = 0});
  network.segments = {cable(0, 1, 0)};
  network.loads = {led(0, 4), led(1, 4)};
  const auto solution = solve(network);
  ASSERT_TRUE(solution);
  for (const double v : solution.value().node_v) EXPECT_TRUE(std::isfinite(v));
  for (const double a : solution.value().output_a) EXPECT_TRUE(std::isfinite(a));
}

TEST(Robustness, OneOutputCannotBeTwoVoltsAtOnce) {
  Network network = supply(1, 12, 0);
  network.outputs.push_back({.node = 0, .transformer = 0, .emf_v = 14, .r_own_ohm = 0});
  const auto solution = solve(network);
  ASSERT_TRUE(solution);
  EXPECT_TRUE(std::isfinite(solution.value().node_v[0]));
}

TEST(Robustness, BehindABreakEverythingIsDark) {
  for (const int broken : {1, 2, 3}) {  // A, B, both
    Network network = supply(4);
    network.segments = {cable(0, 1, 0.1), cable(1, 2, 0.1), cable(2, 3, 0.1)};
    network.segments[1].open_a = (broken & 1) != 0;
    network.segments[1].open_b = (broken & 2) != 0;
    network.loads = {led(1, 4), led(2, 4), led(3, 4)};
    const Solution solution = sound(network);
    EXPECT_EQ(solution.load_state[0], LampState::regulated);
    for (const std::size_t lamp : {1u, 2u}) {
      EXPECT_EQ(solution.load_state[lamp], LampState::off);
      EXPECT_NEAR(solution.load_v[lamp], 0, 1e-9);
    }
  }
}

// A conductor that hangs on nothing but a lamp dimmed to nothing, or on nothing at all, reads no volts either, also
// where the rest of its network is meshed.
TEST(Robustness, ALooseEndInAMeshedNetworkReadsZero) {
  Network network = supply(5);
  network.segments = {cable(0, 1, 0.1), cable(1, 2, 0.1), cable(2, 0, 0.1), cable(2, 3, 0.1), cable(2, 4, 0.1)};
  network.segments[3].open_a = true;
  network.segments[4].open_b = true;
  network.loads = {led(1, 4), led(3, 4)};
  Condition condition;
  condition.load_level = {1.0f, 0.0f};
  const Solution solution = sound(network, condition);
  EXPECT_NEAR(solution.node_v[3], 0, 1e-6);
  EXPECT_NEAR(solution.node_v[4], 0, 1e-6);
  EXPECT_EQ(solution.load_state[0], LampState::regulated);
}

TEST(Robustness, ALampOnOnePointDrawsNothing) {
  Network network = supply(1);
  network.loads = {led(0, 4)};
  network.loads[0].minus = network.loads[0].plus;
  const Solution solution = sound(network);
  EXPECT_EQ(solution.load_v[0], 0.0);
  EXPECT_EQ(solution.load_a[0], 0.0);
  EXPECT_NEAR(solution.node_v[0], 12, 1e-12);
}

TEST(Robustness, NoMainsIsDark) {
  Network network = supply(2);
  network.segments = {cable(0, 1, 0.1)};
  network.loads = {led(1, 4), resistor({1, Conductor::a}, {1, Conductor::b}, 10)};
  Condition condition;
  condition.mains_factor = 0;
  const Solution solution = sound(network, condition);
  EXPECT_EQ(solution.load_state[0], LampState::off);
  EXPECT_NEAR(solution.output_a[0], 0, 1e-12);
}

TEST(Robustness, CopperWithoutResistanceAndLampsWithoutPower) {
  Network network = supply(3);
  network.segments = {cable(0, 1, 0.1), cable(1, 2, 0.1)};
  network.loads = {led(1, 4), led(2, 4)};
  Condition condition;
  condition.copper_factor = 0;
  EXPECT_NEAR(sound(network, condition).node_v[2], sound(network, condition).node_v[0], 1e-12);
  condition.load_factor = 0;
  EXPECT_EQ(sound(network, condition).output_a[0], 0.0);
  EXPECT_EQ(sound(network, condition).load_state[1], LampState::off);
}

// A hundred times what the supply can give: the lamps leave regulation and the sum of their currents is bounded.
TEST(Robustness, AHopelessOverloadHasASteadyState) {
  Network network = supply(101);
  for (std::uint32_t node = 1; node <= 100; ++node) {
    network.segments.push_back(cable(node - 1, node, 0.1));
    network.loads.push_back(led(node, 200));
  }
  const Solution solution = sound(network);
  EXPECT_LT(solution.output_a[0], 120);
  EXPECT_NE(solution.load_state[99], LampState::regulated);
}

// The state just past the point where the regulated one ceases to exist is the slowest to find.
TEST(Robustness, TheEdgeOfCollapseIsFoundFromBothSides) {
  for (const double past : {-1e-2, -1e-4, -1e-6, -1e-8, 0.0, 1e-8, 1e-6, 1e-4, 1e-2}) {
    // One lamp behind R has a regulated state up to S = E^2 / (4 R) = 144 / 4: at 6 V, with regulation from 5 V.
    Network network = supply(1, 12, 1.0);
    network.loads = {led(0, 36 * (1 + past))};
    network.loads[0].v_cut_off = 3;
    network.loads[0].v_regulation_min = 5;
    const Solution solution = sound(network);
    if (past < 0) {
      EXPECT_GE(solution.load_v[0], 6.0) << past;
    } else if (past > 0) {
      EXPECT_LT(solution.load_v[0], 5.0) << past;
    }
  }
}

TEST(Robustness, ResistancesFromPicoToGiga) {
  Network network = supply(5);
  network.segments = {cable(0, 1, 1e-12), cable(1, 2, 1e9), cable(0, 3, 1e-9), cable(3, 1, 1e-3), cable(2, 4, 1e-15)};
  network.loads = {led(1, 4), led(2, 4), led(4, 4)};
  const Solution solution = sound(network);
  EXPECT_EQ(solution.load_state[0], LampState::regulated);
  EXPECT_EQ(solution.load_state[1], LampState::off);
}

// N lamps of a fixed current I on a chain of loop resistance r a span: V_k = E - r I (k N - k (k - 1) / 2).
Network long_chain(std::uint32_t count, double span_ohm, double lamp_a) {
  Network network = supply(count + 1, 15, 0);
  for (std::uint32_t node = 1; node <= count; ++node) {
    network.segments.push_back(cable(node - 1, node, span_ohm / 2));
    Load load = led(node, 12 * lamp_a);
    load.kind = LoadKind::constant_current_led;
    load.rated_v = 12;
    network.loads.push_back(load);
  }
  return network;
}

TEST(Robustness, AChainOfAHundredThousandLamps) {
  constexpr std::uint32_t count = 100000;
  constexpr double span_ohm = 1e-5;
  constexpr double lamp_a = 2e-5;
  const auto started = std::chrono::steady_clock::now();
  const Solution solution = sound(long_chain(count, span_ohm, lamp_a));
  const std::chrono::duration<double> took_s = std::chrono::steady_clock::now() - started;
  const double n = count;
  EXPECT_NEAR(solution.node_v[count], 15 - span_ohm * lamp_a * (n * n - n * (n - 1) / 2), 1e-9);
  EXPECT_LT(took_s.count(), 10);
}

TEST(Robustness, AHubOfAHundredThousandLamps) {
  constexpr std::uint32_t count = 100000;
  Network network = supply(count + 1, 12, 0);
  for (std::uint32_t node = 1; node <= count; ++node) {
    network.segments.push_back(cable(0, node, 500));
    network.loads.push_back(led(node, 0.011));
  }
  const Solution solution = sound(network);
  EXPECT_NEAR(solution.node_v[count], 11, 1e-6);  // 1 mA through 1000 ohm; 1e-9 A are 1e-6 V there
}

TEST(Robustness, ARingOfTwentyThousandLampsIsMirrored) {
  constexpr std::uint32_t count = 20000;
  Network network = long_chain(count, 1e-4, 1e-4);
  network.segments.push_back(cable(count, 0, 0.5e-4));
  const auto started = std::chrono::steady_clock::now();
  const Solution solution = sound(network);
  const std::chrono::duration<double> took_s = std::chrono::steady_clock::now() - started;
  EXPECT_NEAR(solution.node_v[1], solution.node_v[count], 1e-8);
  EXPECT_LT(solution.node_v[count / 2], solution.node_v[1]);
  EXPECT_LT(took_s.count(), 10);
}

TEST(Robustness, TwoThousandSmallRingsTakeNoLongerThanOneLarge) {
  constexpr std::uint32_t count = 2000;
  Network network;
  network.node_count = 3 * count;
  network.transformers.push_back({});
  for (std::uint32_t ring = 0; ring < count; ++ring) {
    const std::uint32_t node = 3 * ring;
    network.outputs.push_back({.node = node, .transformer = 0, .emf_v = 12, .r_own_ohm = 0.1});
    for (std::uint32_t i = 0; i < 3; ++i) network.segments.push_back(cable(node + i, node + (i + 1) % 3, 0.1));
    network.loads.push_back(led(node + 1, 4));
  }
  const auto started = std::chrono::steady_clock::now();
  const Solution solution = sound(network);
  const std::chrono::duration<double> took_s = std::chrono::steady_clock::now() - started;
  EXPECT_DOUBLE_EQ(solution.load_v.front(), solution.load_v.back());
  EXPECT_LT(took_s.count(), 5);
}

TEST(Robustness, ConditionsAreNotMixedUpBetweenSolvesOfOneWorkspace) {
  const RandomCase random = random_case(7);
  const auto prepared = prepare(random.network);
  ASSERT_TRUE(prepared);
  const WorkspacePtr workspace = make_workspace(*prepared.value());
  const Solution first = solve(*prepared.value(), random.condition, *workspace);
  Condition other = random.condition;
  other.load_level.assign(random.network.loads.size(), 0.25f);
  other.mains_factor = 0.7;
  other.copper_factor = 3;
  static_cast<void>(solve(*prepared.value(), other, *workspace));
  static_cast<void>(load_margin(*prepared.value(), other, *workspace));
  static_cast<void>(short_circuit(*prepared.value(), other, *workspace));
  static_cast<void>(lone_lamp_v(*prepared.value(), other, *workspace));
  EXPECT_EQ(solve(*prepared.value(), random.condition, *workspace).node_v, first.node_v);
}

}  // namespace
}  // namespace duskwire::electrical::testing
