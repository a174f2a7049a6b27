// SPDX-License-Identifier: Apache-2.0
#include "faulty/truth.hpp"

#include <algorithm>
#include <cmath>

#include "diagnosis/hypotheses.hpp"
#include "diagnosis/likelihood.hpp"
#include "diagnosis/model.hpp"
#include "diagnosis/state.hpp"
#include "faulty/garden.hpp"

namespace duskwire::faulty {
namespace {

using diagnosis::Fault;
using diagnosis::FaultKind;
using diagnosis::FaultProblem;
using diagnosis::Group;

// The parameter's prior by inversion over a fine table.
double draw_parameter(FaultKind kind, wiring::Dice& dice) {
  constexpr int steps = 400;
  const diagnosis::Range range = diagnosis::parameter_range(kind);
  const double step = std::log(range.high / range.low) / steps;
  std::vector<double> sums;
  for (int k = 0; k < steps; ++k) {
    const double parameter = range.low * std::exp((k + 0.5) * step);
    sums.push_back((sums.empty() ? 0 : sums.back()) + std::exp(diagnosis::log_prior(kind, parameter)));
  }
  const double at = dice.unit() * sums.back();
  const auto found = std::lower_bound(sums.begin(), sums.end(), at) - sums.begin();
  return range.low * std::exp((static_cast<double>(found) + dice.unit()) * step);
}

void draw_fault(const std::vector<Group>& groups, wiring::Dice& dice, Truth& truth) {
  double left = dice.unit() * (1 - groups.front().chance());
  for (std::size_t g = 1; g < groups.size(); ++g) {
    for (const Group::At& at : groups[g].places) {
      left -= at.chance;
      if (left > 0) continue;
      const bool free = diagnosis::has_parameter(groups[g].kind);
      truth.faults.push_back(
          {groups[g].kind, groups[g].element, free ? draw_parameter(groups[g].kind, dice) : groups[g].trials.front()});
      truth.places.push_back(at.place);
      return;
    }
  }
}

bool shows(const FaultProblem& plan, const std::vector<Fault>& faults, std::uint32_t at) {
  constexpr double clear = 3;
  const diagnosis::State sound = diagnosis::settle(plan, {});
  const diagnosis::State state = diagnosis::settle(plan, faults);
  return std::any_of(plan.candidates.begin(), plan.candidates.end(), [&](const diagnosis::Candidate& candidate) {
    const double apart =
        diagnosis::read(plan, state, candidate.probe, at) - diagnosis::read(plan, sound, candidate.probe);
    // The plan itself is unsure of volts by about the mains' spread; a shift has to stand out from that.
    const double unsure = candidate.probe.quantity == diagnosis::Quantity::node_v ? 0.08 : candidate.sigma;
    return candidate.probe.quantity != diagnosis::Quantity::cable_end_v && std::abs(apart) > clear * unsure;
  });
}

void bend(FaultProblem& problem, const Mischief& mischief, wiring::Dice& dice) {
  const diagnosis::Spread& spread = problem.spread;
  problem.nominal.mains_factor *= 1 + spread.mains * normal(dice);
  problem.nominal.copper_factor *= 1 + spread.copper_common * normal(dice);
  problem.nominal.load_factor *= 1 + spread.load_common * normal(dice);
  for (electrical::Segment& segment : problem.network.segments) {
    double factor = 1 + spread.length * normal(dice);
    if (mischief.length_off > 0) factor = 1 + (dice.unit() < 0.5 ? -1 : 1) * mischief.length_off;
    segment.copper_a_ohm *= std::max(0.3, factor);
    segment.copper_b_ohm *= std::max(0.3, factor);
  }
  for (electrical::Load& load : problem.network.loads) load.power_va *= 1 + spread.load * normal(dice);
}

// As often as the diagnosis supposes, and as many of the lamps.
void flicker(Truth& truth, wiring::Dice& dice) {
  constexpr double of_lamps = 0.5;
  const bool unsteady = std::any_of(truth.faults.begin(), truth.faults.end(),
                                    [](const Fault& fault) { return diagnosis::is_unsteady(fault.kind); });
  const bool now = unsteady && dice.unit() < diagnosis::flickers_now;
  truth.flickering.assign(truth.problem.network.loads.size(), false);
  for (std::size_t j = 0; now && j < truth.flickering.size(); ++j) truth.flickering[j] = dice.unit() < of_lamps;
}

}  // namespace

Truth make_truth(const FaultProblem& plan, std::size_t fault_count, const Mischief& mischief, wiring::Dice& dice,
                 std::size_t* hidden) {
  const std::vector<Group> groups = diagnosis::single_faults(plan, diagnosis::settle(plan, {}).solution.segment_a_a);
  Truth truth;
  while (truth.faults.size() < fault_count) {
    Truth next = truth;
    draw_fault(groups, dice, next);
    if (shows(plan, {next.faults.back()}, next.places.back()))
      truth = std::move(next);
    else if (hidden)
      ++*hidden;
  }
  truth.problem = plan;
  bend(truth.problem, mischief, dice);
  flicker(truth, dice);
  return truth;
}

namespace {

diagnosis::Observation look(const Truth& truth, const diagnosis::State& state, std::uint32_t load) {
  const double light = state.solution.load_light[load];
  const auto seen = truth.flickering[load] ? diagnosis::SeenLamp::flickering
                    : light < 0.03         ? diagnosis::SeenLamp::dark
                    : light < 0.75         ? diagnosis::SeenLamp::dim
                                           : diagnosis::SeenLamp::lit;
  return {{diagnosis::Quantity::lamp_state, load}, 0, 0, seen};
}

// Mischief: one lamp of them all noted the wrong way round.
std::vector<diagnosis::Observation> look_round(const Truth& truth, const Mischief& mischief, wiring::Dice& dice) {
  std::vector<diagnosis::Observation> seen = see_lamps(truth);
  if (!seen.empty() && dice.unit() < mischief.wrong_reading) {
    diagnosis::SeenLamp& one = seen[dice.below(seen.size())].seen;
    one = one == diagnosis::SeenLamp::dark ? diagnosis::SeenLamp::lit : diagnosis::SeenLamp::dark;
  }
  return seen;
}

}  // namespace

std::vector<diagnosis::Observation> take(const Truth& truth, const diagnosis::Candidate& candidate,
                                         const Mischief& mischief, wiring::Dice& dice) {
  if (candidate.probe.quantity == diagnosis::Quantity::lamps_seen) return look_round(truth, mischief, dice);
  const diagnosis::State state = diagnosis::settle(truth.problem, truth.faults, candidate.probe.lifted);
  diagnosis::Observation observation{candidate.probe, 0, candidate.sigma, diagnosis::SeenLamp::lit};
  const double right = diagnosis::read(truth.problem, state, candidate.probe, truth.places.front());
  observation.value = std::max(0.0, right + candidate.sigma * normal(dice));
  if (dice.unit() < mischief.wrong_reading) observation.value = 15 * dice.unit();
  std::vector<diagnosis::Observation> taken{observation};
  if (candidate.lamp != diagnosis::none) taken.push_back(look(truth, state, candidate.lamp));
  return taken;
}

std::vector<diagnosis::Observation> see_lamps(const Truth& truth) {
  const diagnosis::State state = diagnosis::settle(truth.problem, truth.faults);
  std::vector<diagnosis::Observation> seen;
  for (std::uint32_t load = 0; load < truth.problem.network.loads.size(); ++load)
    seen.push_back(look(truth, state, load));
  return seen;
}

}  // namespace duskwire::faulty
