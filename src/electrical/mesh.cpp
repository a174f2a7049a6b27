// SPDX-License-Identifier: Apache-2.0
#include "electrical/mesh.hpp"

#include <algorithm>
#include <cmath>

namespace duskwire::electrical {
namespace {

// The nudges that keep every pivot away from zero: siemens on potentials, ohms on explicit currents.
constexpr double nudge_s = 1e-9;
constexpr double nudge_ohm = 1e-9;
// Holds the first output's conductor B near earth potential: which point is called zero changes no current.
constexpr double earth_s = 1.0;
// Least resistance that an explicit edge has in the matrix.
constexpr double floor_ohm = bridge_min_ohm;
// No-load start: a weak tie across each lamp, so that a conductor that hangs on lamps alone has a potential.
constexpr double start_slope_s = 1e-6;

}  // namespace

void prepare_state(MeshState& state, const MeshPart& part) {
  state.x = state.residual = state.update = state.saved_x =
      Eigen::VectorXd::Zero(static_cast<Eigen::Index>(part.total));
  state.rhs = Eigen::VectorXd::Zero(static_cast<Eigen::Index>(part.unknowns));
  state.matrix = part.pattern;
  state.base_values.assign(static_cast<std::size_t>(part.pattern.nonZeros()), 0.0);
  state.edge_ohm.assign(part.edges.size(), 0.0);
  state.source_ohm.assign(part.sources.size(), 0.0);
  state.emf_v.assign(part.sources.size(), 0.0);
  for (std::vector<double>* array : {&state.s_va, &state.v, &state.slope_s, &state.offset_a}) {
    array->assign(part.lamps.size(), 0.0);
  }
  state.special_s_va.assign(part.bank.special.size(), 0.0);
  state.factor.analyse(state.matrix);
}

namespace {

void load_matrix(MeshState& state, const MeshPart& part, const Network& network) {
  std::vector<double>& value = state.base_values;
  const auto n_potential = static_cast<std::uint32_t>(2 * part.nodes.size());
  std::fill(value.begin(), value.end(), 0.0);
  for (std::uint32_t i = 0; i < part.unknowns; ++i) {
    value[static_cast<std::size_t>(part.at_diagonal[i])] = i < n_potential ? nudge_s : -nudge_ohm;
  }
  const auto diagonal = [&](std::uint32_t i) -> double& {
    return value[static_cast<std::size_t>(part.at_diagonal[i])];
  };
  diagonal(part.sources.front().b) += earth_s;
  for (std::size_t e = 0; e < part.edges.size(); ++e) {
    const MeshPart::Edge& edge = part.edges[e];
    const double g = 1.0 / (edge.current == nothing ? state.edge_ohm[e] : std::max(state.edge_ohm[e], floor_ohm));
    diagonal(edge.p) += g;
    diagonal(edge.q) += g;
    value[static_cast<std::size_t>(edge.at)] -= g;
  }
  for (std::size_t s = 0; s < part.sources.size(); ++s) {
    const MeshPart::Source& source = part.sources[s];
    const double shared = network.transformers[network.outputs[source.output].transformer].r_shared_ohm;
    // Row and column of the output current: -1 at A, +1 at B. Both share one place each in the lower triangle.
    const auto column = [&](std::uint32_t i) {
      const auto row = static_cast<int>(source.current);
      const int* begin = part.pattern.innerIndexPtr() + part.pattern.outerIndexPtr()[i];
      const int* end = part.pattern.innerIndexPtr() + part.pattern.outerIndexPtr()[i + 1];
      return static_cast<std::size_t>(std::lower_bound(begin, end, row) - part.pattern.innerIndexPtr());
    };
    value[column(source.a)] -= 1;
    value[column(source.b)] += 1;
    diagonal(source.current) -= state.source_ohm[s] + shared;
  }
  for (const MeshPart::Coupling& coupling : part.couplings) {
    value[static_cast<std::size_t>(coupling.at)] -= coupling.r_ohm;
  }
}

}  // namespace

void load_condition(MeshState& state, const MeshPart& part, const Network& network, const Condition& condition) {
  for (std::size_t e = 0; e < part.edges.size(); ++e) {
    state.edge_ohm[e] = part.edges[e].copper_ohm * condition.copper_factor + part.edges[e].fixed_ohm;
  }
  for (std::size_t s = 0; s < part.sources.size(); ++s) {
    const Output& output = network.outputs[part.sources[s].output];
    state.source_ohm[s] = output.r_own_ohm;
    state.emf_v[s] = output.emf_v * condition.mains_factor;
  }
  for (std::size_t j = 0; j < part.lamps.size(); ++j) {
    state.s_va[j] = part.bank.s_va[j] * condition.load_factor * level_of(condition, part.bank.load[j]);
  }
  for (std::size_t j = 0; j < part.bank.special.size(); ++j) {
    const LoadBank::Special& special = part.bank.special[j];
    state.special_s_va[j] = special.load.power_va * condition.load_factor * level_of(condition, special.index);
  }
  load_matrix(state, part, network);
}

void MeshBackend::read_lamp_volts() {
  for (std::size_t j = 0; j < part_.lamps.size(); ++j) {
    state_.v[j] = state_.x[part_.lamps[j].plus] - state_.x[part_.lamps[j].minus];
  }
}

void MeshBackend::start_unloaded() {
  state_.x.setZero();
  std::fill(state_.slope_s.begin(), state_.slope_s.end(), start_slope_s);
  std::fill(state_.offset_a.begin(), state_.offset_a.end(), 0.0);
  step();
}

LinearisationCheck MeshBackend::linearise(Linearisation mode) {
  LinearisationCheck check = duskwire::electrical::linearise(
      part_.bank, state_.s_va.data(), state_.special_s_va.data(), state_.v.data(), 0, part_.lamps.size(), 0,
      part_.bank.special.size(), mode, state_.slope_s.data(), state_.offset_a.data());
  // The new lines touch the loads at x, so that this is the true imbalance of every conductor point (amperes) and of
  // every explicit branch (volts).
  residual_of(state_.x, nullptr);
  check.residual_a = state_.residual.cwiseAbs().maxCoeff();
  return check;
}

void MeshBackend::residual_of(const Eigen::VectorXd& x, const Eigen::VectorXd* rhs) {
  Eigen::VectorXd& r = state_.residual;
  if (rhs != nullptr) {
    r = *rhs;
  } else {
    r.setZero();
  }
  for (std::size_t e = 0; e < part_.edges.size(); ++e) {
    const MeshPart::Edge& edge = part_.edges[e];
    const double across_v = x[edge.p] - x[edge.q];
    const double current_a = edge.current == nothing ? across_v / state_.edge_ohm[e] : x[edge.current];
    r[edge.p] -= current_a;
    r[edge.q] += current_a;
    if (edge.current != nothing) r[edge.current] -= across_v - state_.edge_ohm[e] * current_a;
  }
  for (std::size_t s = 0; s < part_.sources.size(); ++s) {
    const MeshPart::Source& source = part_.sources[s];
    const double current_a = x[source.current];
    r[source.a] += current_a;
    r[source.b] -= current_a;
    if (rhs == nullptr) r[source.current] -= state_.emf_v[s];
    const double r_ohm = -state_.base_values[static_cast<std::size_t>(part_.at_diagonal[source.current])] - nudge_ohm;
    r[source.current] += x[source.a] - x[source.b] + r_ohm * current_a;
  }
  for (const MeshPart::Coupling& coupling : part_.couplings) {
    r[coupling.i] += coupling.r_ohm * x[coupling.j];
    r[coupling.j] += coupling.r_ohm * x[coupling.i];
  }
  for (std::size_t j = 0; j < part_.lamps.size(); ++j) {
    const MeshPart::Lamp& lamp = part_.lamps[j];
    const double offset_a = rhs == nullptr ? state_.offset_a[j] : 0.0;
    const double current_a = state_.slope_s[j] * (x[lamp.plus] - x[lamp.minus]) + offset_a;
    r[lamp.plus] -= current_a;
    r[lamp.minus] += current_a;
  }
}

bool MeshBackend::factorise() {
  double* value = state_.matrix.valuePtr();
  std::copy(state_.base_values.begin(), state_.base_values.end(), value);
  for (std::size_t j = 0; j < part_.lamps.size(); ++j) {
    const MeshPart::Lamp& lamp = part_.lamps[j];
    if (lamp.at < 0) continue;
    value[part_.at_diagonal[lamp.plus]] += state_.slope_s[j];
    value[part_.at_diagonal[lamp.minus]] += state_.slope_s[j];
    value[lamp.at] -= state_.slope_s[j];
  }
  if (!state_.factor.factorise(state_.matrix)) return false;
  // Past its point of collapse the linearised network gives way: by Sylvester's law of inertia the signs of the pivots
  // tell (one negative pivot per output current, no more, as long as it stands).
  return state_.factor.negative_pivots() == static_cast<Eigen::Index>(part_.sources.size());
}

// Explicit edges are eliminated by hand: with r the floor, i = (du_p - du_q - res_i) / r goes into both KCL rows.
void MeshBackend::correct(const Eigen::VectorXd& residual, Eigen::VectorXd& update) {
  const auto n = static_cast<Eigen::Index>(part_.unknowns);
  state_.rhs = residual.head(n);
  for (std::size_t e = 0; e < part_.edges.size(); ++e) {
    const MeshPart::Edge& edge = part_.edges[e];
    if (edge.current == nothing) continue;
    const double pushed_a = residual[edge.current] / std::max(state_.edge_ohm[e], floor_ohm);
    state_.rhs[edge.p] += pushed_a;
    state_.rhs[edge.q] -= pushed_a;
  }
  update.resize(residual.size());
  state_.factor.solve(state_.rhs, update.head(n));
  for (std::size_t e = 0; e < part_.edges.size(); ++e) {
    const MeshPart::Edge& edge = part_.edges[e];
    if (edge.current == nothing) continue;
    update[edge.current] =
        (update[edge.p] - update[edge.q] - residual[edge.current]) / std::max(state_.edge_ohm[e], floor_ohm);
  }
}

// To 0: until rounding stops it.
bool MeshBackend::step_to(double imbalance_a) {
  constexpr int most_refinements = 6;
  if (!factorise()) return false;
  double before = 0;
  for (int i = 0; i < most_refinements; ++i) {
    residual_of(state_.x, nullptr);
    const double worst = state_.residual.cwiseAbs().maxCoeff();
    if (!std::isfinite(worst)) return false;
    if (i > 0 && (worst <= imbalance_a || worst > 0.5 * before)) break;
    before = worst;
    correct(state_.residual, state_.update);
    state_.x += state_.update;
  }
  read_lamp_volts();
  return state_.x.allFinite();
}

void MeshBackend::solve_linear(const Eigen::VectorXd& rhs, Eigen::VectorXd& x) {
  constexpr int refinements = 2;
  correct(rhs, x);
  for (int i = 0; i < refinements; ++i) {
    residual_of(x, &rhs);
    correct(state_.residual, state_.update);
    x += state_.update;
  }
}

void MeshBackend::settle_loose_ends() {
  std::vector<std::uint8_t> settled = part_.fed;
  std::vector<std::uint8_t> powered(part_.lamps.size(), 0);
  for (std::size_t j = 0; j < part_.lamps.size(); ++j) powered[j] = state_.s_va[j] > 0;
  for (std::size_t j = 0; j < part_.bank.special.size(); ++j) {
    powered[part_.bank.special[j].slot] = state_.special_s_va[j] > 0;
  }
  for (std::size_t j = 0; j < part_.lamps.size(); ++j) {
    if (powered[j] == 0) continue;
    settled[part_.cluster[part_.lamps[j].plus]] = 1;
    settled[part_.cluster[part_.lamps[j].minus]] = 1;
  }
  for (std::uint32_t point = 0; point < part_.cluster.size(); ++point) {
    const std::uint32_t cluster = part_.cluster[point];
    if (settled[cluster] != 0) continue;
    settled[cluster] = 1;
    const double shift_v = state_.x[point ^ 1u] - state_.x[point];
    for (std::uint32_t other = 0; other < part_.cluster.size(); ++other) {
      if (part_.cluster[other] == cluster) state_.x[other] += shift_v;
    }
  }
  read_lamp_volts();
}

void MeshBackend::restore() {
  state_.x = state_.saved_x;
  read_lamp_volts();
}

LampRange MeshBackend::lamps() const {
  return {part_.bank, state_.s_va.data(),       state_.special_s_va.data(), 0, part_.lamps.size(),
          0,          part_.bank.special.size()};
}

void MeshBackend::begin_careful() {
  at_v_ = state_.v;
  follow_laws(1);
}

double MeshBackend::follow_laws(double stride) {
  const double missed_a = duskwire::electrical::follow_laws(lamps(), state_.v.data(), stride, at_v_.data(),
                                                            state_.slope_s.data(), state_.offset_a.data());
  residual_of(state_.x, nullptr);
  return std::max(missed_a, state_.residual.cwiseAbs().maxCoeff());
}

void MeshBackend::lay_flat() { flatten(lamps(), at_v_.data(), state_.slope_s.data(), state_.offset_a.data()); }

bool MeshBackend::not_above_saved() const {
  constexpr double slack_v = 1e-6;
  for (std::size_t j = 0; j < part_.lamps.size(); ++j) {
    const MeshPart::Lamp& lamp = part_.lamps[j];
    if (std::abs(state_.v[j]) > std::abs(state_.saved_x[lamp.plus] - state_.saved_x[lamp.minus]) + slack_v)
      return false;
  }
  return true;
}

bool MeshBackend::is_highest() {
  std::vector<double> top_v;
  for (const MeshPart::Lamp& lamp : part_.lamps)
    top_v.push_back(state_.saved_x[lamp.plus] - state_.saved_x[lamp.minus]);
  const bool proven = lay_chords(lamps(), state_.v.data(), top_v.data(), state_.slope_s.data()) && factorise();
  linearise(Linearisation::tangent);
  return proven;
}

}  // namespace duskwire::electrical
