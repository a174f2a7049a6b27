// SPDX-License-Identifier: Apache-2.0
#include "diagnosis/uncertainty.hpp"

#include <Eigen/Cholesky>
#include <algorithm>
#include <cmath>

namespace duskwire::diagnosis {
namespace {

constexpr double least_ohm = 1e-4;    // of a cable or an output: keeps the matrix tame
constexpr double to_ground_s = 1e-6;  // gives places without supply a potential
constexpr double alive_v = 0.5;

// Columns: segments, loads, then the common ones.
enum Common : Eigen::Index { mains = 0, copper = 1, all_loads = 2, common_count = 3 };

double loop_ohm(const electrical::Segment& segment) {
  return segment.copper_a_ohm + segment.copper_b_ohm + segment.contact_a_ohm + segment.contact_b_ohm;
}

// Relative change of a lamp's current per relative change of its volts.
double current_exponent(const electrical::Load& load, double v) {
  switch (load.kind) {
    case electrical::LoadKind::regulated_led:
      return std::abs(v) >= load.v_regulation_min ? -1 : 0;
    case electrical::LoadKind::filament:
      return 0.6;
    case electrical::LoadKind::resistive:
      return 1;
    case electrical::LoadKind::constant_current_led:
      return 0;
  }
  return 0;
}

}  // namespace

Uncertainty::Uncertainty(const FaultProblem& problem, const Nearby& nearby)
    : problem_(problem),
      nearby_(nearby),
      segments_(static_cast<Eigen::Index>(problem.network.segments.size())),
      loads_(static_cast<Eigen::Index>(problem.network.loads.size())) {
  const auto n = static_cast<Eigen::Index>(problem.network.node_count);
  Eigen::MatrixXd nodal = Eigen::MatrixXd::Identity(n, n) * to_ground_s;
  conductance_s_.resize(segments_);
  for (Eigen::Index s = 0; s < segments_; ++s) {
    const electrical::Segment& segment = problem.network.segments[static_cast<std::size_t>(s)];
    const double g = segment.open_a || segment.open_b ? 0 : 1 / std::max(least_ohm, loop_ohm(segment));
    conductance_s_[s] = g;
    nodal(segment.from, segment.from) += g;
    nodal(segment.to, segment.to) += g;
    nodal(segment.from, segment.to) -= g;
    nodal(segment.to, segment.from) -= g;
  }
  for (const electrical::Output& output : problem.network.outputs) {
    const double r_ohm = output.r_own_ohm + problem.network.transformers[output.transformer].r_shared_ohm;
    nodal(output.node, output.node) += 1 / std::max(least_ohm, r_ohm);
  }
  transfer_ohm_ = nodal.llt().solve(Eigen::MatrixXd::Identity(n, n));
}

double Uncertainty::least_short_a(const Fault& fault) const {
  double behind_ohm = 0;
  std::uint32_t node = none;
  if (fault.kind == FaultKind::short_lamp) {
    node = problem_.network.loads[fault.element].plus.node;
    behind_ohm = transfer_ohm_(node, node);
  } else if (fault.kind == FaultKind::short_span) {
    const electrical::Segment& segment = problem_.network.segments[fault.element];
    node = segment.to;
    behind_ohm = std::max(transfer_ohm_(node, node), transfer_ohm_(segment.from, segment.from));
  } else {
    return 0;
  }
  const std::uint32_t output = problem_.output_of_node[node];
  if (output == none) return 0;
  return problem_.network.outputs[output].emf_v * problem_.nominal.mains_factor / (behind_ohm + fault.parameter);
}

// Where a short hangs: on a node (both ends the same), or on the middle of a segment.
std::optional<Uncertainty::Bridge> Uncertainty::bridge(const Fault& fault, std::uint32_t node) const {
  Bridge at;
  if (fault.kind == FaultKind::short_lamp || fault.kind == FaultKind::water) {
    at.from = at.to = problem_.network.loads[fault.element].plus.node;
  } else if (fault.kind == FaultKind::short_span) {
    const electrical::Segment& segment = problem_.network.segments[fault.element];
    at = {segment.from, segment.to, fault.element, loop_ohm(segment), true};
  } else {
    return std::nullopt;
  }
  const std::uint32_t output = problem_.output_of_node[node];
  at.joined = output != none && output == problem_.output_of_node[at.to];
  return at;
}

// Of a unit current that enters at `node` and leaves at the bridge: half of it at either end of its segment.
double Uncertainty::unit_v(std::uint32_t node, const Bridge& at, std::uint32_t where) const {
  return transfer_ohm_(node, where) - (transfer_ohm_(at.from, where) + transfer_ohm_(at.to, where)) / 2;
}

std::optional<double> Uncertainty::through_short_ohm(const Fault& fault, std::uint32_t node) const {
  const std::optional<Bridge> at = bridge(fault, node);
  if (!at) return std::nullopt;
  if (!at->joined) return most_ohm;
  const double ends_v = (unit_v(node, *at, at->from) + unit_v(node, *at, at->to)) / 2;
  return unit_v(node, *at, node) - ends_v + at->across_ohm / 4 + fault.parameter;  // two halves side by side: a quarter
}

// The relative change of a resistance moves what an ohmmeter reads by the power in it at a current of one.
void Uncertainty::add_ohms(const State& state, const Probe& probe, Eigen::Ref<Eigen::RowVectorXd> row) const {
  const Fault& fault = state.faults.front();
  if (fault.kind == FaultKind::crossed) {
    row[segments_ + loads_ + Common::copper] += problem_.spread.copper_common * read(problem_, state, probe);
    return;
  }
  const std::optional<Bridge> at = bridge(fault, probe.index);
  if (!at || !at->joined) return;
  double all = 0;
  for (Eigen::Index s = 0; s < segments_; ++s) {
    const electrical::Segment& segment = problem_.network.segments[static_cast<std::size_t>(s)];
    const double a =
        conductance_s_[s] * (unit_v(probe.index, *at, segment.from) - unit_v(probe.index, *at, segment.to));
    const double square = a * a + (s == static_cast<Eigen::Index>(at->segment) ? 0.25 : 0);
    const double moved_ohm = square * (segment.copper_a_ohm + segment.copper_b_ohm);
    row[s] += moved_ohm * problem_.spread.length;
    all += moved_ohm;
  }
  row[segments_ + loads_ + Common::copper] += all * problem_.spread.copper_common;
}

Uncertainty::Sources Uncertainty::sources(const State& state) const {
  Sources found;
  found.drop_v.resize(segments_);
  found.load_a.resize(loads_);
  for (Eigen::Index s = 0; s < segments_; ++s) {
    const auto at = static_cast<std::size_t>(s);
    const electrical::Segment& segment = state.faulted.network.segments[at];
    found.drop_v[s] =
        state.solution.segment_a_a[at] * segment.copper_a_ohm - state.solution.segment_b_a[at] * segment.copper_b_ohm;
  }
  double sum_a = 0;
  double moved_a = 0;
  for (Eigen::Index j = 0; j < loads_; ++j) {
    const auto at = static_cast<std::size_t>(j);
    found.load_a[j] = std::abs(state.solution.load_a[at]);
    sum_a += found.load_a[j];
    moved_a += found.load_a[j] * current_exponent(problem_.network.loads[at], state.solution.load_v[at]);
  }
  found.mains_load_share = sum_a > 0 ? moved_a / sum_a : 0;
  return found;
}

// The row of the volts at `node`, times `factor`, onto `row`.
void Uncertainty::add_volts(const Sources& sources, std::uint32_t node, double factor,
                            Eigen::Ref<Eigen::RowVectorXd> row) const {
  const double* from_r = transfer_ohm_.col(static_cast<Eigen::Index>(node)).data();  // symmetric: a column is a row
  double copper = 0;
  for (Eigen::Index s = 0; s < segments_; ++s) {
    const electrical::Segment& segment = problem_.network.segments[static_cast<std::size_t>(s)];
    const double passed = (from_r[segment.to] - from_r[segment.from]) * conductance_s_[s];
    const double moved_v = -factor * passed * sources.drop_v[s];
    row[s] += moved_v * problem_.spread.length;
    copper += moved_v;
  }
  double all = 0;
  for (Eigen::Index j = 0; j < loads_; ++j) {
    const std::uint32_t at = problem_.network.loads[static_cast<std::size_t>(j)].plus.node;
    const double moved_v = -factor * from_r[at] * sources.load_a[j];
    row[segments_ + j] += moved_v * problem_.spread.load;
    all += moved_v;
  }
  row[segments_ + loads_ + Common::copper] += copper * problem_.spread.copper_common;
  row[segments_ + loads_ + Common::all_loads] += all * problem_.spread.load_common;
}

void Uncertainty::fill_cable(const State& state, const Sources& sources, const Probe& probe,
                             Eigen::Ref<Eigen::RowVectorXd> row) const {
  const electrical::Segment& segment = problem_.network.segments[probe.index];
  const double g = conductance_s_[probe.index];
  add_volts(sources, segment.from, g, row);
  add_volts(sources, segment.to, -g, row);
  const auto s = static_cast<Eigen::Index>(probe.index);
  row[s] -= g * sources.drop_v[s] * problem_.spread.length;
  row[segments_ + loads_ + Common::copper] -= g * sources.drop_v[s] * problem_.spread.copper_common;
  row[segments_ + loads_ + Common::mains] +=
      problem_.spread.mains * sources.mains_load_share * state.solution.segment_a_a[probe.index];
}

void Uncertainty::fill(const State& state, const Sources& sources, const Probe& probe,
                       Eigen::Ref<Eigen::RowVectorXd> row) const {
  const electrical::Network& network = state.faulted.network;
  const auto volts_at = [&](std::uint32_t node) {
    if (std::abs(state.solution.node_v[node]) < alive_v) return;
    add_volts(sources, node, 1, row);
    row[segments_ + loads_ + Common::mains] += problem_.spread.mains * std::abs(state.solution.node_v[node]);
  };
  switch (probe.quantity) {
    case Quantity::node_v:
      volts_at(probe.index);
      return;
    case Quantity::output_v:
      volts_at(network.outputs[probe.index].node);
      return;
    case Quantity::cable_end_v:
      volts_at(probe.at_to ? problem_.network.segments[probe.index].to : network.segments[probe.index].from);
      return;
    case Quantity::open_output_v:
      row[segments_ + loads_ + Common::mains] = problem_.spread.mains * network.outputs[probe.index].emf_v;
      return;
    case Quantity::mains_v:
      row[segments_ + loads_ + Common::mains] = problem_.spread.mains * state.faulted.condition.mains_factor;
      return;
    case Quantity::cable_a:
      fill_cable(state, sources, probe, row);
      return;
    case Quantity::output_a: {
      const electrical::Output& output = problem_.network.outputs[probe.index];
      const double r_ohm = output.r_own_ohm + problem_.network.transformers[output.transformer].r_shared_ohm;
      add_volts(sources, output.node, -1 / std::max(least_ohm, r_ohm), row);
      row[segments_ + loads_ + Common::mains] +=
          problem_.spread.mains * sources.mains_load_share * state.solution.output_a[probe.index];
      return;
    }
    case Quantity::input_va:
    case Quantity::cable_net_a:
    case Quantity::lamp_state:
    case Quantity::breaker:
    case Quantity::lamps_seen:
      return;
    case Quantity::loop_ohm:
      if (state.faults.size() == 1) add_ohms(state, probe, row);
      return;
  }
}

Eigen::MatrixXd Uncertainty::rows(const State& state, const std::vector<Probe>& probes) const {
  Eigen::MatrixXd result =
      Eigen::MatrixXd::Zero(static_cast<Eigen::Index>(probes.size()), segments_ + loads_ + common_count);
  const std::optional<Nearby::Slopes> slopes = nearby_.slopes(state);
  const Sources found = sources(state);
  Eigen::RowVectorXd row(result.cols());
  for (std::size_t k = 0; k < probes.size(); ++k) {
    row.setZero();
    if (!slopes || !slopes->fill(probes[k], row)) fill(state, found, probes[k], row);
    result.row(static_cast<Eigen::Index>(k)) = row;
  }
  return result;
}

}  // namespace duskwire::diagnosis
