// SPDX-License-Identifier: Apache-2.0
// The reference run, tests/reference/reference_run.csv: 13.0 V at the tap, 18 m of 12 AWG to F1, then 4.5 m steps to
// F8, eight lamps of 4 VA; healthy and with each fault of its table. Computed outside the engine, rounded to 0.01.
#include <gtest/gtest.h>

#include <algorithm>
#include <functional>
#include <map>

#include "base/units.hpp"
#include "electrical/conductor.hpp"
#include "electrical/nets.hpp"
#include "electrical/solver.hpp"
#include "reference_rows.hpp"

namespace duskwire::electrical {
namespace {

constexpr std::uint32_t lamps = 8;

double loop_ohm(double length_m) { return 2 * length_m * copper_ohm_per_m_20c(units::area_mm2_from_awg(12)); }

// Node 0 is the tap, node k carries Fk, segment k - 1 leads to it.
Network run() {
  Network network = test::chain(lamps, 4, loop_ohm(4.5), 13);
  network.segments[0] = test::segment(0, 1, loop_ohm(18));
  return network;
}

// The far end comes back over another 18 m; segment 8 runs from F8 to the tap.
Network loop() {
  Network network = run();
  network.segments.push_back(test::segment(lamps, 0, loop_ohm(18)));
  return network;
}

struct Case {
  Network network;
  Condition condition;
};

Case changed(Network network, const std::function<void(Network&)>& change) {
  change(network);
  return {std::move(network), {}};
}

Case splice(std::uint32_t lamp, double extra_ohm) {
  return changed(run(), [&](Network& network) { network.segments[lamp - 1].contact_a_ohm = extra_ohm; });
}

Case tap(double emf_v) {
  return changed(run(), [&](Network& network) { network.outputs[0].emf_v = emf_v; });
}

std::map<std::string, Case> all_cases() {
  std::map<std::string, Case> cases;
  cases["healthy"] = {run(), {}};
  cases["F5 driver dead"] = changed(run(), [](Network& network) { network.loads[4].power_va = 0; });
  cases["open between F4 and F5"] =
      changed(run(), [](Network& network) { network.segments[4].open_a = network.segments[4].open_b = true; });
  cases["splice at F5 +0.5 ohm"] = splice(5, 0.5);
  cases["splice at F5 +2 ohm"] = splice(5, 2);
  cases["splice at F1 +0.5 ohm"] = splice(1, 0.5);
  cases["mains -8 %"] = {run(), {}};
  cases["mains -8 %"].condition.mains_factor = 0.92;
  cases["tap 12"] = tap(12);
  cases["tap 15"] = tap(15);
  cases["30 VA added at F8"] = changed(run(), [](Network& network) {
    Load load = network.loads[7];
    load.power_va = 30;
    network.loads.push_back(load);
  });
  cases["loop healthy"] = {loop(), {}};
  cases["loop return leg not connected"] =
      changed(loop(), [](Network& network) { network.segments[8].open_a = network.segments[8].open_b = true; });
  cases["loop one conductor open between F2 and F3"] =
      changed(loop(), [](Network& network) { network.segments[2].open_a = true; });
  return cases;
}

std::size_t leg(const std::string& place) {
  if (place == "leg at F1") return 0;
  if (place == "leg at F8") return 8;
  throw std::runtime_error("no such leg: " + place);
}

double value_of(const Solution& solution, const std::string& quantity, const std::string& place) {
  if (quantity == "output_current") return solution.output_a[0];
  if (quantity == "voltage") return solution.node_v.at(std::stoul(place.substr(1)));
  const auto first = solution.load_v.begin();
  if (quantity == "lowest_voltage") return *std::min_element(first, first + lamps);
  if (quantity == "highest_voltage") return *std::max_element(first, first + lamps);
  const double a_a = solution.segment_a_a.at(leg(place));
  const double b_a = solution.segment_b_a.at(leg(place));
  if (quantity == "conductor_a_current") return std::abs(a_a);
  if (quantity == "conductor_b_current") return std::abs(b_a);
  if (quantity == "net_current") return std::abs(a_a + b_a);
  throw std::runtime_error("unknown quantity " + quantity);
}

TEST(ReferenceRun, EveryRowComesOut) {
  const std::map<std::string, Case> cases = all_cases();
  std::map<std::string, int> rows_of_case;
  for (const ReferenceRow& row : reference_rows("reference_run.csv")) {
    SCOPED_TRACE(row.text("case") + ' ' + row.text("quantity") + ' ' + row.text("place"));
    Case the_case = cases.at(row.text("case"));
    for (Load& load : the_case.network.loads) load.v_regulation_min = row.number("regulation_min_v");
    const Solution solution = test::must_solve(the_case.network, the_case.condition);
    EXPECT_TRUE(solution.converged);
    EXPECT_NEAR(value_of(solution, row.text("quantity"), row.text("place")), row.number("expected"),
                row.number("tol_abs"));
    ++rows_of_case[row.text("case")];
  }
  EXPECT_EQ(rows_of_case.size(), cases.size()) << "a case without rows";
}

TEST(ReferenceRun, EveryLampOfTheHalfOpenLoopIsLit) {
  const Solution solution = test::must_solve(all_cases().at("loop one conductor open between F2 and F3").network);
  for (const LampState state : solution.load_state) EXPECT_EQ(state, LampState::regulated);
}

// Common practice, no source: thirty lamps of 4 VA, evenly over the length of 12 AWG.
Network thirty_lamps(double length_ft, double tap_v) {
  return test::chain(30, 4, loop_ohm(length_ft * 0.3048) / 30, tap_v);
}

// As in the table: a lamp keeps its power down to the volts given.
Solution with_regulation_from(Network network, double v_regulation_min) {
  for (Load& load : network.loads) {
    load.v_regulation_min = v_regulation_min;
    load.v_cut_off = 0;
  }
  return test::must_solve(network);
}

TEST(ReferenceRun, ThirtyLampsOver300FeetSitAtTheEdgeAndFallOffItOnAShorterTapOrALongerRun) {
  const Solution edge = with_regulation_from(thirty_lamps(300, 15), 5);
  EXPECT_GT(edge.load_v.back(), 9);
  EXPECT_LT(edge.load_v.back(), 10);
  EXPECT_EQ(edge.load_state.back(), LampState::regulated);
  EXPECT_NE(with_regulation_from(thirty_lamps(300, 12), 5).load_state.back(), LampState::regulated);
  EXPECT_NE(with_regulation_from(thirty_lamps(350, 15), 5).load_state.back(), LampState::regulated);
}

}  // namespace
}  // namespace duskwire::electrical
