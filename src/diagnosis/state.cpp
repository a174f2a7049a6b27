// SPDX-License-Identifier: Apache-2.0
#include "diagnosis/state.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "diagnosis/nearby.hpp"
#include "electrical/solver.hpp"

namespace duskwire::diagnosis {
namespace {

bool is_tripped_by_fault(const std::vector<Fault>& faults, std::uint32_t output) {
  return std::any_of(faults.begin(), faults.end(),
                     [&](const Fault& fault) { return fault.kind == FaultKind::tripped && fault.element == output; });
}

double across_ohm(const FaultProblem& problem, const State& state, std::uint32_t node) {
  if (std::none_of(state.faults.begin(), state.faults.end(), joins_conductors)) return most_ohm;
  if (!state.loop_ohm.empty()) return std::min(most_ohm, state.loop_ohm[node]);
  electrical::Network network = state.faulted.network;
  for (std::size_t j = 0; j < problem.network.loads.size(); ++j) network.loads[j].power_va = 0;
  for (electrical::Output& output : network.outputs) output.emf_v = 0;
  network.outputs.clear();
  network.outputs.push_back({node, 0, 1, 0, 0});
  if (network.transformers.empty()) network.transformers.push_back({});
  network.transformers[0].r_shared_ohm = 0;
  const auto solved = electrical::solve(std::move(network));
  if (!solved) return most_ohm;
  const double amps = std::abs(solved.value().output_a[0]);
  return amps > 1 / most_ohm ? 1 / amps : most_ohm;
}

double cable_end_v(const FaultProblem& problem, const State& state, const Probe& probe, std::uint32_t at) {
  const electrical::Segment& segment = state.faulted.network.segments[probe.index];
  const electrical::Solution& s = state.solution;
  const SpanPlaces& span = problem.spans[probe.index];
  const std::uint32_t near = probe.at_to ? problem.network.segments[probe.index].to : segment.from;
  const std::uint32_t far = probe.at_to ? segment.from : problem.network.segments[probe.index].to;
  const bool fault_between = at != none && at == (probe.at_to ? span.to_side : span.from_side);
  if (!fault_between) return s.node_v[near];
  // The cable is cut off from this joint, or hangs on it by the fault: seen from its other end.
  const double loop_ohm = segment.copper_a_ohm + segment.copper_b_ohm;
  const double along_a = probe.at_to ? s.segment_a_a[probe.index] : -s.segment_a_a[probe.index];
  return s.node_v[far] - along_a * loop_ohm;
}

// Two taps of one winding tied together send a current round through the turns between them.
double circulating_va(const FaultProblem& problem, const State& state, std::uint32_t transformer) {
  constexpr double lug_ohm = 0.01;  // two lugs and their strands: common practice, no source
  double va = 0;
  for (const Fault& fault : state.faults) {
    if (fault.kind != FaultKind::bridged_taps || problem.network.outputs[fault.element].transformer != transformer) {
      continue;
    }
    const electrical::Output& output = problem.network.outputs[fault.element];
    const double apart_v = std::abs(output.emf_v - fault.parameter);
    va += apart_v * apart_v / (lug_ohm + output.r_own_ohm);
  }
  return va;
}

double input_va(const FaultProblem& problem, const State& state, std::uint32_t transformer) {
  double va = 0;
  bool live = false;
  const electrical::Network& network = state.faulted.network;
  for (std::size_t o = 0; o < network.outputs.size(); ++o) {
    if (network.outputs[o].transformer != transformer) continue;
    va += std::abs(network.outputs[o].emf_v * state.faulted.condition.mains_factor * state.solution.output_a[o]);
    live = live || network.outputs[o].emf_v > 0;
  }
  return live ? va + network.transformers[transformer].core_loss_w + circulating_va(problem, state, transformer) : 0;
}

bool is_live(const electrical::Network& network) {
  return std::any_of(network.outputs.begin(), network.outputs.end(),
                     [](const electrical::Output& output) { return output.emf_v > 0; });
}

electrical::Solution dark(const electrical::Network& network) {
  electrical::Solution solution;
  solution.converged = true;
  solution.node_v.assign(network.node_count, 0);
  solution.segment_a_a.assign(network.segments.size(), 0);
  solution.segment_b_a = solution.segment_a_a;
  solution.load_v.assign(network.loads.size(), 0);
  solution.load_a = solution.load_light = solution.load_v;
  solution.load_state.assign(network.loads.size(), electrical::LampState::off);
  solution.output_a.assign(network.outputs.size(), 0);
  solution.output_v = solution.output_a;
  return solution;
}

// The first try, before any device opens.
std::optional<electrical::Solution> quick(const State& state, std::uint32_t lifted, const Nearby* nearby) {
  if (nearby == nullptr || std::find(state.tripped.begin(), state.tripped.end(), true) != state.tripped.end()) {
    return std::nullopt;
  }
  return nearby->solve(state.faults, state.faulted, lifted);
}

}  // namespace

bool joins_conductors(const Fault& fault) {
  return fault.kind == FaultKind::short_span || fault.kind == FaultKind::short_lamp || fault.kind == FaultKind::water ||
         fault.kind == FaultKind::crossed;
}

State settle(const FaultProblem& problem, const std::vector<Fault>& faults, std::uint32_t lifted,
             std::uint32_t surely_tripped, const Nearby* nearby) {
  State state;
  state.faults = faults;
  state.faulted = apply(problem, faults);
  electrical::Network& network = state.faulted.network;
  if (lifted != none) network.segments[lifted].open_a = network.segments[lifted].open_b = true;
  state.tripped.assign(network.outputs.size(), false);
  for (std::uint32_t o = 0; o < network.outputs.size(); ++o) state.tripped[o] = is_tripped_by_fault(faults, o);
  if (surely_tripped != none) {
    state.tripped[surely_tripped] = true;
    network.outputs[surely_tripped].emf_v = 0;
  }
  for (std::size_t round = 0; round <= network.outputs.size(); ++round) {
    state.near = false;
    if (!is_live(network)) {
      state.solution = dark(network);
      break;
    }
    if (auto near = quick(state, lifted, nearby)) {
      state.solution = *std::move(near);
      state.near = lifted == none;
    } else {
      auto solved = electrical::solve(network, state.faulted.condition);
      if (!solved) return state;
      state.solution = std::move(solved).value();
    }
    bool again = false;
    for (std::size_t o = 0; o < network.outputs.size(); ++o) {
      const double limit_a = network.outputs[o].limit_a;
      if (state.tripped[o] || limit_a <= 0 || state.solution.output_a[o] <= trips_above * limit_a) continue;
      state.tripped[o] = again = true;
      network.outputs[o].emf_v = 0;
    }
    if (!again) break;
  }
  return state;
}

double read(const FaultProblem& problem, const State& state, const Probe& probe, std::uint32_t at) {
  const electrical::Solution& s = state.solution;
  const electrical::Network& network = state.faulted.network;
  const std::uint32_t i = probe.index;
  switch (probe.quantity) {
    case Quantity::node_v:
      return std::abs(s.node_v[i]);
    case Quantity::cable_end_v:
      return std::abs(cable_end_v(problem, state, probe, at));
    case Quantity::output_v:
      return std::abs(s.output_v[i]);
    case Quantity::open_output_v:
      return network.outputs[i].emf_v * state.faulted.condition.mains_factor;
    case Quantity::output_a:
      return std::abs(s.output_a[i]);
    case Quantity::cable_a:
      return std::abs(probe.conductor_b ? s.segment_b_a[i] : s.segment_a_a[i]);
    case Quantity::cable_net_a:
      return std::abs(s.segment_a_a[i] + s.segment_b_a[i]);
    case Quantity::mains_v:
      return state.faulted.mains_present ? state.faulted.condition.mains_factor : 0;
    case Quantity::input_va:
      return input_va(problem, state, i);
    case Quantity::loop_ohm:
      return across_ohm(problem, state, i);
    case Quantity::lamp_state:
      return s.load_light[i];
    case Quantity::breaker:
      return state.tripped[i] ? 1 : 0;
    case Quantity::lamps_seen:
      return 0;  // no number: the lamps one by one
  }
  return 0;
}

}  // namespace duskwire::diagnosis
