// SPDX-License-Identifier: Apache-2.0
// The planned network made ready for Nearby: whether it is of the plain kind, where its lamps settle, its inverses.
#include <Eigen/LU>
#include <algorithm>
#include <cmath>
#include <numeric>

#include "diagnosis/loops.hpp"
#include "diagnosis/nearby.hpp"
#include "diagnosis/state.hpp"
#include "electrical/loads.hpp"

namespace duskwire::diagnosis {
namespace {

constexpr double earth_s = 1.0;            // which point is called zero changes no current
constexpr double tie_s = 1e-7;             // of conductors without supply: no path, but a potential
constexpr double least_ohm = 1e-5;         // of a conductor: below it, the sparse solver's explicit currents are needed
constexpr Eigen::Index most_points = 800;  // a dense inverse of more takes longer than it saves

// Nodes joined by cable, by their first.
std::vector<std::uint32_t> grids(const electrical::Network& network) {
  std::vector<std::uint32_t> root(network.node_count);
  std::iota(root.begin(), root.end(), 0U);
  const auto find = [&](std::uint32_t x) {
    while (root[x] != x) x = root[x] = root[root[x]];
    return x;
  };
  for (const electrical::Segment& segment : network.segments) root[find(segment.from)] = find(segment.to);
  for (std::uint32_t node = 0; node < network.node_count; ++node) root[node] = find(node);
  return root;
}

}  // namespace

bool Nearby::is_plain() const {
  const electrical::Network& network = problem_.network;
  if (network.outputs.empty() || !network.bridges.empty()) return false;
  for (std::uint32_t s = 0; s < network.segments.size(); ++s) {
    const electrical::Segment& segment = network.segments[s];
    if (segment.open_a || segment.open_b || segment.crossed) return false;
    if (conductor_ohm(s, false) < least_ohm || conductor_ohm(s, true) < least_ohm) return false;
  }
  for (const electrical::Load& load : network.loads) {
    if (load.plus.node != load.minus.node || load.plus.conductor == load.minus.conductor) return false;
  }
  const std::vector<std::uint32_t> grid = grids(network);
  return std::all_of(grid.begin(), grid.end(), [&](std::uint32_t of) {
    return std::any_of(network.outputs.begin(), network.outputs.end(),
                       [&](const electrical::Output& output) { return grid[output.node] == of; });
  });
}

double Nearby::conductor_ohm(std::uint32_t segment, bool b) const {
  const electrical::Segment& one = problem_.network.segments[segment];
  return (b ? one.copper_b_ohm : one.copper_a_ohm) * problem_.nominal.copper_factor +
         (b ? one.contact_b_ohm : one.contact_a_ohm);
}

Nearby::Nearby(const FaultProblem& problem)
    : problem_(problem),
      points_(2 * static_cast<Eigen::Index>(problem.network.node_count)),
      lamps_(static_cast<Eigen::Index>(problem.network.loads.size())) {
  const std::vector<bool> on_loop = segments_on_loops(problem.network);
  const bool has_loop = std::find(on_loop.begin(), on_loop.end(), true) != on_loop.end();
  usable_ = has_loop && points_ <= most_points && is_plain();  // a tree is solved afresh as quickly
  if (usable_) settle_plan();
}

void Nearby::settle_plan() {
  const electrical::Network& network = problem_.network;
  const State state = settle(problem_, {});
  usable_ =
      state.solution.converged && std::find(state.tripped.begin(), state.tripped.end(), true) == state.tripped.end();
  slope_s_.resize(lamps_);
  plan_q_a_.resize(lamps_);
  for (Eigen::Index j = 0; usable_ && j < lamps_; ++j) {
    const auto at = static_cast<std::size_t>(j);
    const electrical::Load& load = network.loads[at];
    const double level = electrical::level_of(problem_.nominal, at);
    const double v = state.solution.load_v[at];
    const electrical::LoadPoint now =
        electrical::load_point(load, load.power_va * problem_.nominal.load_factor * level, v);
    usable_ = !has_range(load, level) || std::abs(v) >= electrical::holding_v(load);
    slope_s_[j] = now.slope_s;
    plan_q_a_[j] = now.current_a - now.slope_s * v;
  }
  if (usable_) invert();
}

void Nearby::invert() {
  const electrical::Network& network = problem_.network;
  const auto outputs = static_cast<Eigen::Index>(network.outputs.size());
  Eigen::MatrixXd y = Eigen::MatrixXd::Zero(points_ + outputs, points_ + outputs);
  const auto branch = [&](Eigen::Index p, Eigen::Index q, double g) {
    y(p, p) += g;
    y(q, q) += g;
    y(p, q) -= g;
    y(q, p) -= g;
  };
  for (std::uint32_t s = 0; s < network.segments.size(); ++s) {
    for (const bool b : {false, true}) {
      branch(point(network.segments[s].from, b), point(network.segments[s].to, b), 1 / conductor_ohm(s, b));
    }
  }
  const std::vector<std::uint32_t> grid = grids(network);
  Eigen::MatrixXd cables = y.topLeftCorner(points_, points_);
  std::vector<bool> tied(network.node_count, false);
  Eigen::VectorXd f = Eigen::VectorXd::Zero(points_ + outputs);
  for (Eigen::Index o = 0; o < outputs; ++o) {
    const electrical::Output& output = network.outputs[static_cast<std::size_t>(o)];
    const Eigen::Index a = point(output.node, false);
    const Eigen::Index at = points_ + o;
    if (!tied[grid[output.node]]) {
      tied[grid[output.node]] = true;
      y(a + 1, a + 1) += earth_s;
      cables(a, a) += tie_s;
      cables(a + 1, a + 1) += tie_s;
    }
    y(at, a) = y(a, at) = -1;
    y(at, a + 1) = y(a + 1, at) = 1;
    y(at, at) -= output.r_own_ohm;
    for (Eigen::Index other = 0; other < outputs; ++other) {
      const std::uint32_t transformer = network.outputs[static_cast<std::size_t>(other)].transformer;
      if (transformer == output.transformer) y(at, points_ + other) -= network.transformers[transformer].r_shared_ohm;
    }
    f[at] = -output.emf_v * problem_.nominal.mains_factor;
  }
  Eigen::MatrixXd ports = Eigen::MatrixXd::Zero(points_ + outputs, lamps_);
  for (Eigen::Index j = 0; j < lamps_; ++j) {
    const electrical::Load& load = network.loads[static_cast<std::size_t>(j)];
    const Eigen::Index plus = point(load.plus.node, load.plus.conductor == electrical::Conductor::b);
    const Eigen::Index minus = point(load.minus.node, load.minus.conductor == electrical::Conductor::b);
    branch(plus, minus, slope_s_[j]);
    ports(plus, j) = 1;
    ports(minus, j) = -1;
  }
  inverse_ = y.inverse();
  bare_ = cables.inverse();
  by_lamp_ = inverse_ * ports;
  among_lamps_ = ports.transpose() * by_lamp_;
  plan_x_ = inverse_ * (f - ports * plan_q_a_);
}

}  // namespace duskwire::diagnosis
