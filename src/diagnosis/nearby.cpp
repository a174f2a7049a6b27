// SPDX-License-Identifier: Apache-2.0
#include "diagnosis/nearby.hpp"

#include <algorithm>
#include <cmath>

#include "electrical/loads.hpp"

namespace duskwire::diagnosis {

// Lamps of the plan, and one more load that a fault adds.
struct Nearby::Ports {
  const electrical::Load* more = nullptr;
  Eigen::VectorXd more_column;  // inverse times its port, updated
  Eigen::VectorXd base_v;       // of the lamps, with no change of their currents
  double more_base_v = 0;
  Eigen::VectorXd v;
  double more_v = 0;
  Eigen::VectorXd moved_a;  // change of q
  double more_a = 0;
};

bool Nearby::iterate(const Faulted& faulted, const Updated& updated, Ports& ports) const {
  constexpr int most_steps = 40;
  constexpr double still_v = 1e-9;
  constexpr double least_left = 1e-6;  // of the network's stiffness beside the one more load
  const auto& loads = faulted.network.loads;
  std::vector<Eigen::VectorXd> w_lamp;
  const auto lamp_dot = [&](const Eigen::VectorXd& x) {
    Eigen::VectorXd v(lamps_);
    for (Eigen::Index j = 0; j < lamps_; ++j) {
      const electrical::Load& load = problem_.network.loads[static_cast<std::size_t>(j)];
      v[j] = x[point(load.plus.node, load.plus.conductor == electrical::Conductor::b)] -
             x[point(load.minus.node, load.minus.conductor == electrical::Conductor::b)];
    }
    return v;
  };
  for (const Eigen::VectorXd& w : updated.w) w_lamp.push_back(lamp_dot(w));
  Eigen::VectorXd least_v = Eigen::VectorXd::Zero(lamps_);  // below which a lamp has left its range
  Eigen::VectorXd power_va(lamps_);
  std::vector<Eigen::Index> bent;  // lamps that are not of constant power in their range
  for (Eigen::Index j = 0; j < lamps_; ++j) {
    const electrical::Load& load = loads[static_cast<std::size_t>(j)];
    const double level = electrical::level_of(faulted.condition, static_cast<std::size_t>(j));
    const bool ranged = has_range(load, level);
    power_va[j] = load.power_va * faulted.condition.load_factor * level;
    if (ranged) least_v[j] = electrical::holding_v(load);
    if (!ranged || load.kind != electrical::LoadKind::regulated_led) bent.push_back(j);
  }
  Eigen::VectorXd more_at_lamps;
  double more_at_more = 0;
  if (ports.more != nullptr) {
    more_at_lamps = lamp_dot(ports.more_column);
    const Eigen::Index a = point(ports.more->plus.node, false);
    more_at_more = ports.more_column[a] - ports.more_column[a + 1];
  }
  ports.v = ports.base_v;
  ports.more_v = ports.more_base_v;
  ports.moved_a.setZero(lamps_);
  Eigen::VectorXd next;
  for (int step = 0; step < most_steps; ++step) {
    // Volts go one way: what has left its range hardly ever comes back.
    if ((ports.v.array().abs() < least_v.array()).any()) return false;
    ports.moved_a = power_va.cwiseQuotient(ports.v);
    for (const Eigen::Index j : bent) {
      ports.moved_a[j] = electrical::load_point(loads[static_cast<std::size_t>(j)], power_va[j], ports.v[j]).current_a;
    }
    ports.moved_a -= slope_s_.cwiseProduct(ports.v) + plan_q_a_;
    next.noalias() = ports.base_v - among_lamps_ * ports.moved_a;
    for (std::size_t k = 0; k < w_lamp.size(); ++k)
      next += updated.factor[k] * w_lamp[k].dot(ports.moved_a) * w_lamp[k];
    double moved_v = 0;
    if (ports.more != nullptr) {
      // It draws more than any lamp: its own slope is taken in.
      const double va = ports.more->power_va * faulted.condition.load_factor;
      const electrical::LoadPoint now = electrical::load_point(*ports.more, va, ports.more_v);
      const double left = 1 + now.slope_s * more_at_more;
      if (!(left > least_left)) return false;
      const double offset_a = now.current_a - now.slope_s * ports.more_v;
      const double v = (ports.more_base_v - more_at_lamps.dot(ports.moved_a) - offset_a * more_at_more) / left;
      ports.more_a = offset_a + now.slope_s * v;
      next -= ports.more_a * more_at_lamps;
      moved_v = std::abs(v - ports.more_v);
      ports.more_v = v;
    }
    moved_v = std::max(moved_v, lamps_ > 0 ? (next - ports.v).cwiseAbs().maxCoeff() : 0.0);
    ports.v.swap(next);
    if (!std::isfinite(moved_v)) return false;
    if (ports.more != nullptr && std::abs(ports.more_v) < electrical::holding_v(*ports.more)) return false;
    if (moved_v <= still_v) return !(ports.v.array().abs() < least_v.array()).any();
  }
  return false;
}

std::optional<electrical::Solution> Nearby::solve(const std::vector<Fault>& faults, const Faulted& faulted,
                                                  std::uint32_t lifted) const {
  if (!usable_) return std::nullopt;
  const std::optional<std::vector<Term>> changes = terms(faults, lifted);
  if (!changes) return std::nullopt;
  Ports ports;
  for (std::size_t j = static_cast<std::size_t>(lamps_); j < faulted.network.loads.size(); ++j) {
    const electrical::Load& load = faulted.network.loads[j];
    if (load.kind == electrical::LoadKind::resistive) continue;  // a leak: one of the terms
    if (ports.more != nullptr) return std::nullopt;
    ports.more = &load;
  }
  const std::optional<Updated> updated = update(inverse_, *changes);
  if (!updated) return std::nullopt;
  const auto corrected = [&](Eigen::VectorXd x, const auto& pushed) {  // takes in the terms
    for (std::size_t k = 0; k < updated->w.size(); ++k) x -= updated->factor[k] * pushed(updated->w[k]) * updated->w[k];
    return x;
  };
  Eigen::VectorXd pushed = Eigen::VectorXd::Zero(inverse_.rows());
  Eigen::VectorXd x = plan_x_;
  const auto push = [&](Eigen::Index at, double value) {
    if (value == 0) return;
    pushed[at] += value;
    x += value * inverse_.col(at);
  };
  for (std::size_t o = 0; o < faulted.network.outputs.size(); ++o) {
    push(points_ + static_cast<Eigen::Index>(o), problem_.network.outputs[o].emf_v * problem_.nominal.mains_factor -
                                                     faulted.network.outputs[o].emf_v * faulted.condition.mains_factor);
  }
  for (const Term& term : *changes) {
    const double amount = -term.value * dot(term, plan_x_);
    for (std::size_t k = 0; k < term.count; ++k) push(term.at[k], amount * term.weight[k]);
  }
  x = corrected(std::move(x), [&](const Eigen::VectorXd& w) { return w.dot(pushed); });
  ports.base_v.resize(lamps_);
  for (Eigen::Index j = 0; j < lamps_; ++j) {
    const electrical::Load& load = problem_.network.loads[static_cast<std::size_t>(j)];
    ports.base_v[j] = x[point(load.plus.node, load.plus.conductor == electrical::Conductor::b)] -
                      x[point(load.minus.node, load.minus.conductor == electrical::Conductor::b)];
  }
  if (ports.more != nullptr) {
    const Term port = across(ports.more->plus.node, 1);
    ports.more_base_v = dot(port, x);
    ports.more_column = corrected(inverse_.col(port.at[0]) - inverse_.col(port.at[1]),
                                  [&](const Eigen::VectorXd& w) { return dot(port, w); });
  }
  if (!iterate(faulted, *updated, ports)) return std::nullopt;
  const Eigen::VectorXd lamps_push = by_lamp_ * ports.moved_a;
  x -= corrected(lamps_push, [&](const Eigen::VectorXd& w) {
    double sum = 0;
    for (Eigen::Index j = 0; j < lamps_; ++j) {
      const electrical::Load& load = problem_.network.loads[static_cast<std::size_t>(j)];
      sum += ports.moved_a[j] * (w[point(load.plus.node, load.plus.conductor == electrical::Conductor::b)] -
                                 w[point(load.minus.node, load.minus.conductor == electrical::Conductor::b)]);
    }
    return sum;
  });
  if (ports.more != nullptr) x -= ports.more_a * ports.more_column;
  return read_out(faulted, faults, x, ports);
}

electrical::Solution Nearby::read_out(const Faulted& faulted, const std::vector<Fault>& faults,
                                      const Eigen::VectorXd& x, const Ports& ports) const {
  const electrical::Network& network = faulted.network;
  Eigen::VectorXd u(2 * static_cast<Eigen::Index>(network.node_count));
  u.head(points_) = x.head(points_);
  std::uint32_t middle = problem_.network.node_count;  // of shorted spans, in the order of the faults
  for (const Fault& fault : faults) {
    if (fault.kind != FaultKind::short_span) continue;
    std::vector<Term> term;
    add(fault, term);
    const double through_a = term.front().value * dot(term.front(), x);
    for (const bool b : {false, true}) {
      const electrical::Segment& segment = problem_.network.segments[fault.element];
      u[point(middle, b)] = (x[point(segment.from, b)] + x[point(segment.to, b)]) / 2 -
                            (b ? -1 : 1) * through_a * conductor_ohm(fault.element, b) / 4;
    }
    ++middle;
  }
  electrical::Solution solution;
  solution.converged = true;
  solution.node_v.reserve(network.node_count);
  for (std::vector<double>* amps : {&solution.segment_a_a, &solution.segment_b_a}) {
    amps->reserve(network.segments.size());
  }
  for (std::vector<double>* of_loads : {&solution.load_v, &solution.load_a, &solution.load_light}) {
    of_loads->reserve(network.loads.size());
  }
  solution.load_state.reserve(network.loads.size());
  for (std::uint32_t node = 0; node < network.node_count; ++node) {
    solution.node_v.push_back(u[point(node, false)] - u[point(node, true)]);
  }
  const double copper = faulted.condition.copper_factor;
  for (const electrical::Segment& one : network.segments) {
    const auto along = [&](bool b, double ohm) {
      return (u[point(one.from, b)] - u[point(one.to, b != one.crossed)]) / ohm;
    };
    solution.segment_a_a.push_back(one.open_a ? 0 : along(false, one.copper_a_ohm * copper + one.contact_a_ohm));
    solution.segment_b_a.push_back(one.open_b ? 0 : along(true, one.copper_b_ohm * copper + one.contact_b_ohm));
  }
  for (std::size_t j = 0; j < network.loads.size(); ++j) {
    const electrical::Load& load = network.loads[j];
    const double level = electrical::level_of(faulted.condition, j);
    const double va = load.power_va * faulted.condition.load_factor * level;
    const double v = j < static_cast<std::size_t>(lamps_)
                         ? ports.v[static_cast<Eigen::Index>(j)]
                         : u[point(load.plus.node, false)] - u[point(load.plus.node, true)];
    solution.load_v.push_back(v);
    solution.load_a.push_back(electrical::load_point(load, va, v).current_a);
    solution.load_light.push_back(electrical::load_light(load, level, v));
    solution.load_state.push_back(electrical::load_state(load, va, v));
  }
  for (std::size_t o = 0; o < network.outputs.size(); ++o) {
    solution.output_a.push_back(x[points_ + static_cast<Eigen::Index>(o)]);
    solution.output_v.push_back(solution.node_v[network.outputs[o].node]);
  }
  return solution;
}

std::vector<double> Nearby::loop_ohm(const std::vector<Fault>& faults, std::uint32_t lifted) const {
  if (!usable_) return {};
  std::vector<Fault> of_cables = faults;
  std::erase_if(of_cables, [](const Fault& fault) { return fault.kind == FaultKind::weak_output; });
  const std::optional<std::vector<Term>> changes = terms(of_cables, lifted);
  if (!changes) return {};
  const std::optional<Updated> updated = update(bare_, *changes);
  if (!updated) return {};
  std::vector<double> ohm;
  for (std::uint32_t node = 0; node < problem_.network.node_count; ++node) {
    const Eigen::Index a = point(node, false);
    double sum = bare_(a, a) + bare_(a + 1, a + 1) - 2 * bare_(a, a + 1);
    for (std::size_t k = 0; k < updated->w.size(); ++k) {
      const double across_v = updated->w[k][a] - updated->w[k][a + 1];
      sum -= updated->factor[k] * across_v * across_v;
    }
    ohm.push_back(sum);
  }
  return ohm;
}

}  // namespace duskwire::diagnosis
