// SPDX-License-Identifier: Apache-2.0
// The quick way to a faulted state against solving it afresh, which ngspice_faults_test.cpp holds against ngspice; and
// its slopes against small changes of the network.
#include "diagnosis/nearby.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "diagnosis/hypotheses.hpp"
#include "diagnosis/state.hpp"
#include "faulty/garden.hpp"
#include "faulty/problem_of.hpp"

namespace duskwire::diagnosis {
namespace {

constexpr double gap_v = 1e-6;

double worst_gap(const std::vector<double>& x, const std::vector<double>& y) {
  EXPECT_EQ(x.size(), y.size());
  double worst = 0;
  for (std::size_t k = 0; k < std::min(x.size(), y.size()); ++k) worst = std::max(worst, std::abs(x[k] - y[k]));
  return worst;
}

FaultProblem problem(faulty::Shape shape, std::uint32_t lamps, wiring::Dice& dice) {
  const faulty::Garden garden = faulty::make_garden(shape, lamps, dice);
  return faulty::problem_of(garden.network, {}, garden.leads);
}

std::vector<std::vector<Fault>> faults_of(const FaultProblem& plan) {
  std::vector<std::vector<Fault>> all;
  for (const Group& group : single_faults(plan, settle(plan, {}).solution.segment_a_a)) {
    for (const double trial : group.trials) all.push_back({{group.kind, group.element, trial}});
  }
  const std::size_t singles = all.size();  // and every seventh beside another
  for (std::size_t k = 7; k < singles; k += 7) all.push_back({all[k].front(), all[(5 * k) % singles].front()});
  return all;
}

TEST(Nearby, SettlesToWhatSolvingAfreshGives) {
  wiring::Dice dice(91);
  std::size_t near = 0;
  for (const std::uint32_t lamps : {7U, 12U, 22U}) {
    const FaultProblem plan = problem(faulty::Shape::loop, lamps, dice);
    const Nearby nearby(plan);
    for (const std::vector<Fault>& faults : faults_of(plan)) {
      const State quick = settle(plan, faults, none, none, &nearby);
      if (!quick.near) continue;
      ++near;
      const State afresh = settle(plan, faults);
      const int kind = static_cast<int>(faults.front().kind);
      EXPECT_EQ(quick.tripped, afresh.tripped);
      EXPECT_LE(worst_gap(quick.solution.node_v, afresh.solution.node_v), gap_v) << kind;
      EXPECT_LE(worst_gap(quick.solution.segment_a_a, afresh.solution.segment_a_a), gap_v) << kind;
      EXPECT_LE(worst_gap(quick.solution.segment_b_a, afresh.solution.segment_b_a), gap_v) << kind;
      EXPECT_LE(worst_gap(quick.solution.load_a, afresh.solution.load_a), gap_v) << kind;
      EXPECT_LE(worst_gap(quick.solution.load_light, afresh.solution.load_light), gap_v) << kind;
      EXPECT_LE(worst_gap(quick.solution.output_a, afresh.solution.output_a), gap_v) << kind;
      EXPECT_EQ(quick.solution.load_state, afresh.solution.load_state) << kind;
    }
  }
  EXPECT_GE(near, 400U) << "most faults must come this way, or it proves little";
}

// Overloads, from a lamp's worth to more than the loop bears: those that leave every lamp in its range come this way.
TEST(Nearby, SettlesOverloadsAsSolvingAfreshDoes) {
  wiring::Dice dice(95);
  const FaultProblem plan = problem(faulty::Shape::loop, 24, dice);
  const Nearby nearby(plan);
  std::size_t near = 0;
  std::size_t in_range = 0;
  for (std::uint32_t node = 0; node < plan.network.node_count; node += 2) {
    for (const double va : {5.0, 20.0, 40.0, 60.0, 90.0}) {
      const std::vector<Fault> faults{{FaultKind::added_load, node, va}};
      const State quick = settle(plan, faults, none, none, &nearby);
      const State afresh = settle(plan, faults);
      const bool holds = std::all_of(afresh.solution.load_state.begin(), afresh.solution.load_state.end(), [](auto of) {
        return of == electrical::LampState::regulated || of == electrical::LampState::over;
      });
      in_range += holds ? 1 : 0;
      near += quick.near ? 1 : 0;
      EXPECT_TRUE(holds || !quick.near) << node << " " << va;
      EXPECT_LE(worst_gap(quick.solution.node_v, afresh.solution.node_v), gap_v) << node << " " << va;
      EXPECT_LE(worst_gap(quick.solution.load_a, afresh.solution.load_a), gap_v) << node << " " << va;
    }
  }
  EXPECT_GE(in_range, 60U);
  EXPECT_GE(20 * near, 19 * in_range) << "of " << in_range;
}

TEST(Nearby, LeavesOutWhatIsCutOff) {
  wiring::Dice dice(92);
  const FaultProblem plan = problem(faulty::Shape::loop, 8, dice);
  const Nearby nearby(plan);
  const std::vector<Fault> cut{{FaultKind::open, 3, 0}, {FaultKind::open, 5, 0}};
  EXPECT_FALSE(nearby.solve(cut, apply(plan, cut), none).has_value());
}

// Of every fault that joins the conductors, at every node.
TEST(Nearby, ReadsTheOhmsThatSolvingGives) {
  wiring::Dice dice(93);
  for (const std::uint32_t lamps : {12U, 18U}) {
    const FaultProblem plan = problem(faulty::Shape::loop, lamps, dice);
    const Nearby nearby(plan);
    std::size_t compared = 0;
    for (const std::vector<Fault>& faults : faults_of(plan)) {
      if (!joins_conductors(faults.front()) || faults.front().parameter > 1) continue;
      const std::vector<double> ohm = nearby.loop_ohm(faults, none);
      if (ohm.empty()) continue;
      const State state = settle(plan, faults);
      for (std::uint32_t node = 0; node < plan.network.node_count; node += 3) {
        const double solved = read(plan, state, {Quantity::loop_ohm, node});
        EXPECT_NEAR(std::min(most_ohm, ohm[node]), solved, 1e-4 * solved) << static_cast<int>(faults.front().kind);
        ++compared;
      }
    }
    EXPECT_GE(compared, 100U);
  }
}

// Each source of error moved a little, and the network solved again.
TEST(Nearby, SlopesAreThoseOfSmallChanges) {
  constexpr double little = 1e-4;
  wiring::Dice dice(94);
  const FaultProblem plan = problem(faulty::Shape::loop, 8, dice);
  const Nearby nearby(plan);
  const std::vector<Probe> probes{{Quantity::node_v, 4},
                                  {Quantity::output_v, 0},
                                  {Quantity::output_a, 0},
                                  {Quantity::cable_a, 0},
                                  {Quantity::cable_a, 0, false, true},
                                  {Quantity::cable_a, 8}};
  const auto sources = static_cast<Eigen::Index>(plan.network.segments.size() + plan.network.loads.size());
  for (const std::vector<Fault>& faults :
       {std::vector<Fault>{}, {{FaultKind::open_a, 2, 0}}, {{FaultKind::resistive, 5, 0.2}}}) {
    const State state = settle(plan, faults, none, none, &nearby);
    const auto slopes = nearby.slopes(state);
    ASSERT_TRUE(slopes.has_value());
    for (const Probe& probe : probes) {
      Eigen::RowVectorXd row = Eigen::RowVectorXd::Zero(sources + 3);
      ASSERT_TRUE(slopes->fill(probe, row));
      for (Eigen::Index source = 0; source < sources; source += 2) {
        double ends[2] = {0, 0};
        for (const int side : {0, 1}) {
          FaultProblem moved = plan;
          const auto at = static_cast<std::size_t>(source);
          const double factor = 1 + (side == 0 ? -little : little);
          if (at < plan.network.segments.size()) {
            moved.network.segments[at].copper_a_ohm *= factor;
            moved.network.segments[at].copper_b_ohm *= factor;
          } else {
            moved.network.loads[at - plan.network.segments.size()].power_va *= factor;
          }
          ends[side] = read(moved, settle(moved, faults), probe);
        }
        const double spread =
            static_cast<std::size_t>(source) < plan.network.segments.size() ? plan.spread.length : plan.spread.load;
        const double found = (ends[1] - ends[0]) / (2 * little) * spread;
        // The lamps' slopes are those of the plan: a hundredth of what the source itself may do.
        EXPECT_NEAR(row[source], found, 2e-4 + 0.03 * std::abs(found)) << "source " << source;
      }
    }
  }
}

}  // namespace
}  // namespace duskwire::diagnosis
