// SPDX-License-Identifier: Apache-2.0
// Slopes of readings by one column of the inverse each: with x' = Y^-1 t the change of t x for a relative change of a
// conductor is (x'_p - x'_q) I, for a lamp -(x'_p - x'_q) I, for the mains -x' emf.
#include <algorithm>
#include <cmath>

#include "diagnosis/nearby.hpp"
#include "diagnosis/state.hpp"

namespace duskwire::diagnosis {
namespace {

constexpr double alive_v = 0.5;

// What is read: `weight` of two unknowns, and what else the conductor itself does to its own current.
struct Read {
  Eigen::Index p = 0;
  Eigen::Index q = -1;
  double weight = 1;
  std::uint32_t segment = none;
  double own = 0;
};

}  // namespace

std::optional<Nearby::Slopes> Nearby::slopes(const State& state) const {
  if (!usable_ || !state.near) return std::nullopt;
  const bool crossed = std::any_of(state.faults.begin(), state.faults.end(),
                                   [](const Fault& fault) { return fault.kind == FaultKind::crossed; });
  const std::optional<std::vector<Term>> changes = terms(state.faults, none);
  if (crossed || !changes) return std::nullopt;
  std::optional<Updated> updated = update(inverse_, *changes);
  if (!updated) return std::nullopt;
  Slopes slopes;
  slopes.nearby_ = this;
  slopes.state_ = &state;
  slopes.updated_ = *std::move(updated);
  return slopes;
}

bool Nearby::Slopes::fill(const Probe& probe, Eigen::Ref<Eigen::RowVectorXd> row) const {
  const FaultProblem& problem = nearby_->problem_;
  const electrical::Network& network = state_->faulted.network;
  const electrical::Solution& s = state_->solution;
  const double copper = state_->faulted.condition.copper_factor;
  const auto copper_share = [&](const electrical::Segment& one, bool b) {
    const double ohm = (b ? one.copper_b_ohm : one.copper_a_ohm) * copper;
    return ohm / (ohm + (b ? one.contact_b_ohm : one.contact_a_ohm));
  };
  Read read;
  const auto volts_at = [&](std::uint32_t node) {
    read.p = point(node, false);
    read.q = point(node, true);
    read.weight = s.node_v[node] < 0 ? -1 : 1;
    return std::abs(s.node_v[node]) >= alive_v;  // a dead point has no errors
  };
  const std::uint32_t i = probe.index;
  switch (probe.quantity) {
    case Quantity::node_v:
      if (!volts_at(i)) return true;
      break;
    case Quantity::output_v:
      if (!volts_at(problem.network.outputs[i].node)) return true;
      break;
    case Quantity::cable_end_v:
      if (!volts_at(probe.at_to ? problem.network.segments[i].to : problem.network.segments[i].from)) return true;
      break;
    case Quantity::output_a:
      read.p = nearby_->points_ + static_cast<Eigen::Index>(i);
      read.weight = s.output_a[i] < 0 ? -1 : 1;
      break;
    case Quantity::cable_a: {
      const electrical::Segment& one = network.segments[i];
      const bool b = probe.conductor_b;
      if (one.to != problem.network.segments[i].to) return false;  // shorted half way
      if (b ? one.open_b : one.open_a) return true;
      const double amps = b ? s.segment_b_a[i] : s.segment_a_a[i];
      const double ohm =
          (b ? one.copper_b_ohm : one.copper_a_ohm) * copper + (b ? one.contact_b_ohm : one.contact_a_ohm);
      read.p = point(one.from, b);
      read.q = point(one.to, b);
      read.weight = (amps < 0 ? -1 : 1) / ohm;
      read.segment = i;
      read.own = -std::abs(amps) * copper_share(one, b);
      break;
    }
    default:
      return false;
  }
  const Eigen::MatrixXd& inverse = nearby_->inverse_;
  Eigen::VectorXd x = read.weight * inverse.col(read.p);
  if (read.q >= 0) x -= read.weight * inverse.col(read.q);
  for (std::size_t k = 0; k < updated_.w.size(); ++k) {
    const Eigen::VectorXd& w = updated_.w[k];
    x -= updated_.factor[k] * read.weight * (w[read.p] - (read.q >= 0 ? w[read.q] : 0)) * w;
  }
  const auto segments = static_cast<Eigen::Index>(problem.network.segments.size());
  const auto loads = static_cast<Eigen::Index>(problem.network.loads.size());
  double all_copper = 0;
  for (Eigen::Index k = 0; k < segments; ++k) {
    const auto at = static_cast<std::size_t>(k);
    const electrical::Segment& one = network.segments[at];
    const electrical::Segment& whole = problem.network.segments[at];
    double moved = 0;
    for (const bool b : {false, true}) {
      const double amps = b ? s.segment_b_a[at] : s.segment_a_a[at];
      moved += (x[point(whole.from, b)] - x[point(whole.to, b)]) * amps * copper_share(one, b);
    }
    if (read.segment == at) moved += read.own;
    row[k] += moved * problem.spread.length;
    all_copper += moved;
  }
  double all_loads = 0;
  for (Eigen::Index j = 0; j < loads; ++j) {
    const auto at = static_cast<std::size_t>(j);
    const electrical::Load& load = problem.network.loads[at];
    const double moved = -(x[point(load.plus.node, load.plus.conductor == electrical::Conductor::b)] -
                           x[point(load.minus.node, load.minus.conductor == electrical::Conductor::b)]) *
                         s.load_a[at];
    row[segments + j] += moved * problem.spread.load;
    all_loads += moved;
  }
  double mains = 0;
  for (std::size_t o = 0; o < network.outputs.size(); ++o) {
    mains -= x[nearby_->points_ + static_cast<Eigen::Index>(o)] * network.outputs[o].emf_v *
             state_->faulted.condition.mains_factor;
  }
  row[segments + loads] += mains * problem.spread.mains;
  row[segments + loads + 1] += all_copper * problem.spread.copper_common;
  row[segments + loads + 2] += all_loads * problem.spread.load_common;
  return true;
}

}  // namespace duskwire::diagnosis
