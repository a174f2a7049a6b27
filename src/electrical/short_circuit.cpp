// SPDX-License-Identifier: Apache-2.0
// Bolted shorts and lone lamps: what each point of the network looks like from outside, as an emf behind a resistance
// (Thevenin), with all lamps ignored. In a tree that resistance is the sum along the path; in a mesh one linear solve
// per point.
#include <algorithm>
#include <cmath>

#include "electrical/prepared.hpp"

namespace duskwire::electrical {
namespace {

struct Behind {
  double emf_v = 0;
  double r_ohm = 0;
  std::uint32_t output = no_output;  // the one that carries most of a short here
  double share = 1;                  // of the short's current
  double unloaded_a = 0;             // what that output carries before (circulating between outputs)
};

// Every slot of the forest.
std::vector<Behind> behind_slots(const Prepared& prepared, const ForestState& state) {
  const Forest& forest = prepared.forest;
  std::vector<Behind> behind(forest.parent.size());
  for (const Forest::Block& block : forest.blocks) {
    for (std::size_t k = block.first + 1; k < block.last; ++k) {
      behind[k] = behind[forest.parent[k]];
      behind[k].r_ohm += state.r_ohm[k];
      if (k < block.head_end) behind[k].emf_v += state.emf_v[k];
    }
  }
  return behind;
}

// Fills in which output feeds each slot.
void name_outputs(const Forest& forest, std::vector<Behind>& behind) {
  for (const Forest::Head& head : forest.heads) behind[head.slot].output = head.output;
  for (const Forest::Block& block : forest.blocks) {
    for (std::size_t k = block.first + 1; k < block.last; ++k) {
      if (behind[k].output == no_output) behind[k].output = behind[forest.parent[k]].output;
    }
  }
}

// A meshed part with its lamps taken out, ready to be asked about any two of its points.
class BareMesh {
 public:
  BareMesh(const MeshPart& part, MeshState& state) : part_(part), backend_(part, state) {
    std::fill(state.s_va.begin(), state.s_va.end(), 0.0);
    backend_.start_unloaded();
    std::fill(state.slope_s.begin(), state.slope_s.end(), 0.0);
    sound_ = backend_.step();  // leaves the factor of the bare network behind
    unloaded_ = state.x;
    rhs_ = Eigen::VectorXd::Zero(static_cast<Eigen::Index>(part.total));
  }

  Behind between(std::uint32_t p, std::uint32_t q) {
    Behind behind;
    if (!sound_ || p == q) return behind;
    // Loading the pair by 1 A drops its volts by the driving-point resistance.
    rhs_.setZero();
    rhs_[p] = -1;
    rhs_[q] = 1;
    backend_.solve_linear(rhs_, response_);
    behind.emf_v = unloaded_[p] - unloaded_[q];
    behind.r_ohm = std::max(0.0, -(response_[p] - response_[q]));
    for (const MeshPart::Source& source : part_.sources) {
      if (behind.output != no_output && std::abs(response_[source.current]) <= std::abs(behind.share)) continue;
      behind.output = source.output;
      behind.share = response_[source.current];
      behind.unloaded_a = unloaded_[source.current];
    }
    return behind;
  }

 private:
  const MeshPart& part_;
  MeshBackend backend_;
  Eigen::VectorXd unloaded_;
  Eigen::VectorXd rhs_;
  Eigen::VectorXd response_;
  bool sound_ = false;
};

void load_all(const Prepared& prepared, const Condition& condition, Workspace& workspace) {
  load_condition(workspace.forest, prepared.forest, prepared.network, condition);
  for (std::size_t i = 0; i < prepared.meshes.size(); ++i) {
    load_condition(workspace.meshes[i], prepared.meshes[i], prepared.network, condition);
  }
}

// Volts of one load alone behind an emf and a resistance: the highest steady state of v = emf - r I(v).
double lone_v(const Load& load, double s_va, double emf_v, double r_ohm) {
  const double size_v = std::abs(emf_v);
  const auto excess = [&](double v) { return v - size_v + r_ohm * load_point(load, s_va, v).current_a; };
  double v = size_v;
  for (int i = 0; i < 60; ++i) {
    const LoadPoint point = load_point(load, s_va, v);
    const double slope = 1.0 + r_ohm * point.slope_s;
    const double next = slope > 0 ? v - excess(v) / slope : -1.0;
    if (next < 0 || (is_led(load.kind) && next < holding_v(load))) break;  // leaves the convex range
    if (std::abs(next - v) <= 1e-12 * size_v) return std::copysign(next, emf_v);
    v = next;
  }
  // Step down from above until the excess changes sign, then halve: finds the highest crossing at 1/1000 resolution.
  double high = size_v;
  double low = 0;
  constexpr int steps = 1000;
  for (int i = steps - 1; i >= 0; --i) {
    low = size_v * i / steps;
    if (excess(low) <= 0) break;
    high = low;
  }
  for (int i = 0; i < 60; ++i) {
    const double middle = 0.5 * (low + high);
    (excess(middle) <= 0 ? low : high) = middle;
  }
  return std::copysign(0.5 * (low + high), emf_v);
}

}  // namespace

ShortCircuit short_circuit(const Prepared& prepared, const Condition& condition, Workspace& workspace) {
  const Network& network = prepared.network;
  ShortCircuit result;
  result.node_a.assign(network.node_count, 0.0);
  result.output.assign(network.node_count, no_output);
  result.output_share_a.assign(network.node_count, 0.0);
  load_all(prepared, condition, workspace);
  const auto put = [&](std::uint32_t node, const Behind& behind) {
    if (behind.output == no_output) return;
    const double short_a = std::abs(behind.emf_v) / std::max(behind.r_ohm, bridge_min_ohm);
    result.node_a[node] = short_a;
    result.output[node] = behind.output;
    result.output_share_a[node] = std::abs(behind.unloaded_a + std::copysign(short_a, behind.emf_v) * behind.share);
  };
  std::vector<Behind> behind = behind_slots(prepared, workspace.forest);
  name_outputs(prepared.forest, behind);
  for (std::uint32_t node = 0; node < network.node_count; ++node) {
    const std::uint32_t slot = prepared.forest.slot_of_node[node];
    if (slot != nothing) put(node, behind[slot]);
  }
  for (std::size_t i = 0; i < prepared.meshes.size(); ++i) {
    BareMesh bare(prepared.meshes[i], workspace.meshes[i]);
    for (std::uint32_t k = 0; k < prepared.meshes[i].nodes.size(); ++k) {
      put(prepared.meshes[i].nodes[k], bare.between(2 * k, 2 * k + 1));
    }
  }
  return result;
}

std::vector<double> lone_lamp_v(const Prepared& prepared, const Condition& condition, Workspace& workspace) {
  const Network& network = prepared.network;
  std::vector<double> volts(network.loads.size(), 0.0);
  load_all(prepared, condition, workspace);
  const auto power_va = [&](std::uint32_t load) {
    return network.loads[load].power_va * condition.load_factor * level_of(condition, load);
  };
  const std::vector<Behind> behind = behind_slots(prepared, workspace.forest);
  for (std::uint32_t j = 0; j < network.loads.size(); ++j) {
    const std::uint32_t slot = prepared.forest.slot_of_load[j];
    if (slot == nothing) continue;
    const Load& load = network.loads[j];
    const double sign =
        prepared.forest.sign_of_node[load.plus.node] * (load.plus.conductor == Conductor::a ? 1.0 : -1.0);
    volts[j] = sign * lone_v(load, power_va(j), behind[slot].emf_v, behind[slot].r_ohm);
  }
  for (std::size_t i = 0; i < prepared.meshes.size(); ++i) {
    const MeshPart& part = prepared.meshes[i];
    BareMesh bare(part, workspace.meshes[i]);
    for (std::size_t at = 0; at < part.lamps.size(); ++at) {
      const std::uint32_t j = part.bank.load[at];
      const Behind seen = bare.between(part.lamps[at].plus, part.lamps[at].minus);
      volts[j] = lone_v(network.loads[j], power_va(j), seen.emf_v, seen.r_ohm);
    }
  }
  return volts;
}

}  // namespace duskwire::electrical
