// SPDX-License-Identifier: Apache-2.0
#include "diagnosis/model.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

namespace duskwire::diagnosis {
namespace {

// Log density of a reading that is simply wrong: anywhere in what such a meter shows.
double log_wild(Quantity quantity) {
  switch (quantity) {
    case Quantity::output_a:
    case Quantity::cable_a:
    case Quantity::cable_net_a:
      return -std::log(10.0);
    case Quantity::mains_v:
      return -std::log(1.0);
    case Quantity::input_va:
      return -std::log(600.0);
    case Quantity::loop_ohm:
      return -std::log(100.0);
    default:
      return -std::log(15.0);
  }
}

double log_seen(const Observation& observation, double computed, bool flickers) {
  if (observation.probe.quantity == Quantity::lamp_state) {
    return log_seen_chance(observation.seen, computed, flickers);
  }
  constexpr double misread = 0.01;
  return std::log((observation.value > 0.5) == (computed > 0.5) ? 1 - misread : misread);
}

}  // namespace

bool is_state(Quantity quantity) {
  return quantity == Quantity::lamp_state || quantity == Quantity::breaker || quantity == Quantity::lamps_seen;
}

bool is_volts(Quantity quantity) {
  return quantity == Quantity::node_v || quantity == Quantity::cable_end_v || quantity == Quantity::output_v;
}

double loose_share(Quantity quantity) {
  switch (quantity) {
    case Quantity::cable_net_a:
      return 0.08;
    case Quantity::input_va:
      return 0.06;
    case Quantity::loop_ohm:
      return 0.02;
    default:
      return 0;
  }
}

bool is_unsteady(FaultKind kind) {
  return kind == FaultKind::resistive || kind == FaultKind::water || kind == FaultKind::weak_output;
}

Model::Model(const FaultProblem& problem, bool foresees)
    : problem_(problem), foresees_(foresees), nearby_(problem), uncertainty_(problem, nearby_), lifted_{none} {
  const auto lift = [&](std::uint32_t segment) {
    if (std::find(lifted_.begin(), lifted_.end(), segment) == lifted_.end()) lifted_.push_back(segment);
  };
  for (std::size_t k = 0; k < problem.observations.size(); ++k) {
    const Probe& probe = problem.observations[k].probe;
    if (is_state(probe.quantity)) {
      add_state(k);
    } else {
      numeric_.push_back(k);
    }
    lift(probe.lifted);
  }
  if (foresees) {
    for (const Candidate& candidate : problem.candidates) lift(candidate.probe.lifted);
  }
  const auto is_ohm = [](const auto& item) { return item.probe.quantity == Quantity::loop_ohm; };
  reads_ohm_ = std::any_of(problem.observations.begin(), problem.observations.end(), is_ohm) ||
               (foresees && std::any_of(problem.candidates.begin(), problem.candidates.end(), is_ohm));
  const auto n = static_cast<Eigen::Index>(numeric_.size());
  values_.resize(n);
  meter_sigma_.resize(n);
  wild_.resize(n);
  for (Eigen::Index k = 0; k < n; ++k) {
    const Observation& observation = problem.observations[numeric_[static_cast<std::size_t>(k)]];
    numeric_probes_.push_back(observation.probe);
    values_[k] = observation.value;
    meter_sigma_[k] = observation.sigma;
    wild_[k] = log_wild(observation.probe.quantity);
  }
  for (std::uint32_t o = 0; o < problem.network.outputs.size(); ++o) tripped_.push_back(settle(problem, {}, none, o));
  sound_state_ = settle(problem, {}, none, none, &nearby_);
  sound_ = outlooks({}, {none}, foresees).front();
}

Eigen::VectorXd Model::own_sigma(const Eigen::VectorXd& computed) const {
  Eigen::VectorXd sigma = meter_sigma_;
  for (Eigen::Index k = 0; k < sigma.size(); ++k) {
    const double share = loose_share(numeric_probes_[static_cast<std::size_t>(k)].quantity);
    if (share > 0) sigma[k] = std::hypot(sigma[k], share * computed[k]);
  }
  return sigma;
}

bool Model::distinguishes_ends_of(std::uint32_t segment) const {
  const auto reads_end = [segment](const auto& item) {
    return item.probe.quantity == Quantity::cable_end_v && item.probe.index == segment;
  };
  return std::any_of(problem_.observations.begin(), problem_.observations.end(), reads_end) ||
         std::any_of(problem_.candidates.begin(), problem_.candidates.end(), reads_end);
}

// Who takes a dim lamp for a lit one does so again: a second look at the same lamp is no second witness. The later one
// stands, but that a lamp was seen to flicker stays.
void Model::add_state(std::size_t observation) {
  const Observation& one = problem_.observations[observation];
  const auto before = std::find_if(states_.begin(), states_.end(),
                                   [&](std::size_t k) { return problem_.observations[k].probe == one.probe; });
  if (one.probe.quantity != Quantity::lamp_state || before == states_.end()) {
    states_.push_back(observation);
  } else if (problem_.observations[*before].seen != SeenLamp::flickering) {
    *before = observation;
  }
}

// What lies between the conductors at the lugs draws at least this, whatever the lamps draw beside it.
std::uint32_t Model::trips_when_crossed(const Fault& fault) const {
  const std::uint32_t o = problem_.output_of_node[problem_.network.segments[fault.element].to];
  if (o == none) return none;
  const electrical::Output& output = problem_.network.outputs[o];
  const std::vector<double> ohm = nearby_.loop_ohm({fault}, none);
  if (ohm.empty() || output.limit_a <= 0) return none;
  const double behind_ohm = output.r_own_ohm + problem_.network.transformers[output.transformer].r_shared_ohm;
  const double short_a = output.emf_v * problem_.nominal.mains_factor / (behind_ohm + ohm[output.node]);
  return short_a > trips_above * output.limit_a ? o : none;
}

std::uint32_t Model::surely_tripped(const std::vector<Fault>& faults) const {
  if (faults.size() != 1) return none;
  if (faults.front().kind == FaultKind::crossed) return trips_when_crossed(faults.front());
  const double short_a = uncertainty_.least_short_a(faults.front());
  if (short_a <= 0) return none;
  const Fault& fault = faults.front();
  const std::uint32_t node = fault.kind == FaultKind::short_lamp ? problem_.network.loads[fault.element].plus.node
                                                                 : problem_.network.segments[fault.element].to;
  const std::uint32_t output = problem_.output_of_node[node];
  const double limit_a = problem_.network.outputs[output].limit_a;
  return limit_a > 0 && short_a > trips_above * limit_a ? output : none;
}

// As read(), but an ohmmeter's view of one short by the transfer resistances: quicker than another solve.
double Model::value(const State& state, const Probe& probe, std::uint32_t at) const {
  if (probe.quantity != Quantity::loop_ohm || state.faults.size() != 1) return read(problem_, state, probe, at);
  const std::optional<double> ohm = uncertainty_.through_short_ohm(state.faults.front(), probe.index);
  return ohm ? std::min(*ohm, most_ohm) : read(problem_, state, probe, at);
}

// A short that surely trips leaves behind it what that output's open device does, wherever it sits.
State Model::settled(const std::vector<Fault>& faults, std::uint32_t lifted) const {
  const std::uint32_t output = lifted == none ? surely_tripped(faults) : none;
  State state = output == none ? settle(problem_, faults, lifted, none, &nearby_) : tripped_[output];
  state.faults = faults;
  const bool joined = std::any_of(faults.begin(), faults.end(), joins_conductors);
  if (reads_ohm_ && joined) state.loop_ohm = nearby_.loop_ohm(faults, lifted);
  return state;
}

template <class StateOf>
void Model::foresee(const StateOf& state_of, std::uint32_t at, Outlook& outlook) const {
  constexpr double dark_light = 0.03;
  const std::vector<Candidate>& candidates = problem_.candidates;
  outlook.future.resize(static_cast<Eigen::Index>(candidates.size()));
  outlook.dark.resize(candidates.size());
  for (std::size_t c = 0; c < candidates.size(); ++c) {
    const State& state = state_of(candidates[c].probe);
    outlook.future[static_cast<Eigen::Index>(c)] = static_cast<float>(value(state, candidates[c].probe, at));
    const std::uint32_t lamp = candidates[c].lamp;
    outlook.dark[c] = lamp != none && state.solution.load_light[lamp] < dark_light;
  }
  const State& as_it_is = state_of(Probe{});
  outlook.out.resize(problem_.network.loads.size());
  for (std::size_t j = 0; j < outlook.out.size(); ++j) outlook.out[j] = as_it_is.solution.load_light[j] < dark_light;
}

std::vector<Outlook> Model::outlooks(const std::vector<Fault>& faults, const std::vector<std::uint32_t>& at,
                                     bool with_future) const {
  std::vector<State> states;
  for (const std::uint32_t lifted : lifted_) {
    states.push_back(settled(faults, lifted));
  }
  const auto state_of = [&](const Probe& probe) -> const State& {
    const auto found = std::find(lifted_.begin(), lifted_.end(), probe.lifted);
    return states[static_cast<std::size_t>(found - lifted_.begin())];
  };
  std::vector<Outlook> result(at.size());
  for (std::size_t p = 0; p < at.size(); ++p) {
    Outlook& outlook = result[p];
    outlook.trips =
        std::find(states.front().tripped.begin(), states.front().tripped.end(), true) != states.front().tripped.end();
    outlook.measured.resize(static_cast<Eigen::Index>(numeric_.size()));
    Eigen::VectorXd seen(static_cast<Eigen::Index>(states_.size()));
    for (std::size_t k = 0; k < numeric_.size(); ++k) {
      const Probe& probe = numeric_probes_[k];
      outlook.measured[static_cast<Eigen::Index>(k)] = value(state_of(probe), probe, at[p]);
    }
    for (std::size_t k = 0; k < states_.size(); ++k) {
      const Probe& probe = problem_.observations[states_[k]].probe;
      seen[static_cast<Eigen::Index>(k)] = value(state_of(probe), probe, at[p]);
    }
    judge_seen(seen, outlook);
    if (with_future) foresee(state_of, at[p], outlook);
    outlook.agreement = p == 0
                            ? agreement(uncertainty_.rows(states.front(), numeric_probes_), own_sigma(outlook.measured))
                            : result.front().agreement;
  }
  return result;
}

void Model::judge_seen(const Eigen::VectorXd& seen, Outlook& outlook) const {
  double flickering = 0;
  for (std::size_t k = 0; k < states_.size(); ++k) {
    const Observation& one = problem_.observations[states_[k]];
    outlook.log_seen += log_seen(one, seen[static_cast<Eigen::Index>(k)], false);
    flickering += log_seen(one, seen[static_cast<Eigen::Index>(k)], true);
  }
  outlook.log_seen_unsteady =
      log_sum(outlook.log_seen + std::log(1 - flickers_now), flickering + std::log(flickers_now));
}

double Model::log_likelihood(const Outlook& nearest, const Eigen::VectorXd& measured, bool unsteady) const {
  const double numbers = log_density(nearest.agreement, values_ - measured, wild_, problem_.spread.wrong_reading);
  return numbers + (unsteady ? nearest.log_seen_unsteady : nearest.log_seen);
}

}  // namespace duskwire::diagnosis
