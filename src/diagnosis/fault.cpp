// SPDX-License-Identifier: Apache-2.0
#include "diagnosis/fault.hpp"

namespace duskwire::diagnosis {
namespace {

using electrical::Conductor;

void set_level(Faulted& to, std::size_t load, float level) {
  auto& levels = to.condition.load_level;
  if (levels.size() <= load) levels.resize(load + 1, 1.0F);
  levels[load] = level;
}

// Water and shorts to the other conductor of a place are loads of a fixed resistance: a tree stays a tree.
void leak(Faulted& to, std::uint32_t node, double ohm) {
  constexpr double least_ohm = 1e-3;
  electrical::Load load;
  load.kind = electrical::LoadKind::resistive;
  load.plus = {node, Conductor::a};
  load.minus = {node, Conductor::b};
  load.rated_v = 1;
  load.power_va = 1 / (ohm > least_ohm ? ohm : least_ohm);
  to.network.loads.push_back(load);
}

void short_in_span(Faulted& to, std::uint32_t segment, double ohm) {
  const std::uint32_t middle = to.network.node_count++;
  electrical::Segment& first = to.network.segments[segment];
  electrical::Segment second = first;
  second.from = middle;
  first.to = middle;
  first.crossed = false;
  for (electrical::Segment* half : {&first, &second}) {
    half->copper_a_ohm /= 2;
    half->copper_b_ohm /= 2;
    half->contact_a_ohm /= 2;
    half->contact_b_ohm /= 2;
  }
  to.network.segments.push_back(second);
  leak(to, middle, ohm);
}

void add_lamp(Faulted& to, std::uint32_t node, double power_va) {
  electrical::Load load;
  load.plus = {node, Conductor::a};
  load.minus = {node, Conductor::b};
  load.power_va = power_va;
  load.v_cut_off = 6;
  load.v_regulation_min = 9;
  to.network.loads.push_back(load);
}

void thin_run(Faulted& to, const FaultProblem& problem, std::uint32_t output, double factor) {
  for (std::size_t s = 0; s < problem.spans.size(); ++s) {
    if (problem.spans[s].is_lead || problem.spans[s].output != output) continue;
    to.network.segments[s].copper_a_ohm *= factor;
    to.network.segments[s].copper_b_ohm *= factor;
  }
}

void switch_off(Faulted& to) {
  for (electrical::Output& output : to.network.outputs) output.emf_v = 0;
}

void apply_one(Faulted& to, const FaultProblem& problem, const Fault& fault) {
  electrical::Network& network = to.network;
  const std::uint32_t e = fault.element;
  switch (fault.kind) {
    case FaultKind::sound:
      return;
    case FaultKind::open:
      network.segments[e].open_a = network.segments[e].open_b = true;
      return;
    case FaultKind::open_a:
      network.segments[e].open_a = true;
      return;
    case FaultKind::open_b:
      network.segments[e].open_b = true;
      return;
    case FaultKind::resistive:
      network.segments[e].contact_a_ohm += fault.parameter;
      return;
    case FaultKind::short_span:
      short_in_span(to, e, fault.parameter);
      return;
    case FaultKind::dead_lamp:
      set_level(to, e, 0);
      return;
    case FaultKind::water:
    case FaultKind::short_lamp:
      leak(to, network.loads[e].plus.node, fault.parameter);
      return;
    case FaultKind::added_load:
      add_lamp(to, e, fault.parameter);
      return;
    case FaultKind::wrong_gauge:
      thin_run(to, problem, e, fault.parameter);
      return;
    case FaultKind::wrong_tap:
      network.outputs[e].emf_v = fault.parameter;
      return;
    case FaultKind::weak_output:
      network.outputs[e].r_own_ohm += fault.parameter;
      return;
    case FaultKind::tripped:
      network.outputs[e].emf_v = 0;
      return;
    case FaultKind::bridged_taps:
      network.outputs[e].emf_v = (network.outputs[e].emf_v + fault.parameter) / 2;
      return;
    case FaultKind::transformer_dead:
      for (electrical::Output& output : network.outputs) {
        if (output.transformer == e) output.emf_v = 0;
      }
      return;
    case FaultKind::no_mains:
      to.mains_present = false;
      switch_off(to);
      return;
    case FaultKind::control_off:
      switch_off(to);
      return;
    case FaultKind::low_mains:
      to.condition.mains_factor *= fault.parameter;
      return;
    case FaultKind::crossed:
      network.segments[e].crossed = !network.segments[e].crossed;
      return;
  }
}

}  // namespace

bool has_parameter(FaultKind kind) {
  switch (kind) {
    case FaultKind::resistive:
    case FaultKind::short_span:
    case FaultKind::water:
    case FaultKind::short_lamp:
    case FaultKind::added_load:
    case FaultKind::wrong_gauge:
    case FaultKind::weak_output:
    case FaultKind::low_mains:
      return true;
    default:
      return false;
  }
}

Faulted apply(const FaultProblem& problem, const std::vector<Fault>& faults) {
  Faulted to{problem.network, problem.nominal, true};
  for (const Fault& fault : faults) apply_one(to, problem, fault);
  return to;
}

}  // namespace duskwire::diagnosis
