// SPDX-License-Identifier: Apache-2.0
// Faults as changes of a few branches, and what they make of an inverse.
#include <algorithm>
#include <cmath>

#include "diagnosis/nearby.hpp"

namespace duskwire::diagnosis {
namespace {

constexpr double least_left = 1e-6;  // of a branch's conductance: with less, something hangs on nothing

}  // namespace

double Nearby::dot(const Term& term, const Eigen::VectorXd& x) {
  double sum = 0;
  for (std::size_t k = 0; k < term.count; ++k) sum += term.weight[k] * x[term.at[k]];
  return sum;
}

void Nearby::add_branch(Eigen::Index p, Eigen::Index q, double value, std::vector<Term>& terms) const {
  terms.push_back({{p, q}, {1, -1}, 2, value});
}

Nearby::Term Nearby::across(std::uint32_t node, double value) const {
  return {{point(node, false), point(node, true)}, {1, -1}, 2, value};
}

// False: this fault is not a change of a few branches.
bool Nearby::add(const Fault& fault, std::vector<Term>& terms) const {
  constexpr double least_short_ohm = 1e-3;  // as a leak has at least, see fault.cpp
  const electrical::Network& network = problem_.network;
  const std::uint32_t e = fault.element;
  const double leak_s = 1 / std::max(least_short_ohm, fault.parameter);
  const auto end = [&](bool to, bool b) { return point(to ? network.segments[e].to : network.segments[e].from, b); };
  const auto conductance = [&](bool b) { return 1 / conductor_ohm(e, b); };
  switch (fault.kind) {
    case FaultKind::open:
    case FaultKind::open_a:
    case FaultKind::open_b:
      for (const bool b : {false, true}) {
        if (fault.kind == FaultKind::open || (fault.kind == FaultKind::open_b) == b) {
          add_branch(end(false, b), end(true, b), -conductance(b), terms);
        }
      }
      return true;
    case FaultKind::resistive:
      add_branch(end(false, false), end(true, false),
                 1 / (conductor_ohm(e, false) + fault.parameter) - conductance(false), terms);
      return true;
    case FaultKind::short_span: {  // the middle stands half way between the ends, behind a quarter of each conductor
      const double behind_ohm = (conductor_ohm(e, false) + conductor_ohm(e, true)) / 4;
      terms.push_back({{end(false, false), end(true, false), end(false, true), end(true, true)},
                       {0.5, 0.5, -0.5, -0.5},
                       4,
                       1 / (behind_ohm + 1 / leak_s)});
      return true;
    }
    case FaultKind::water:
    case FaultKind::short_lamp:
      terms.push_back(across(network.loads[e].plus.node, leak_s));
      return true;
    case FaultKind::crossed:  // what is new first: nothing hangs on nothing in between
      for (const bool b : {false, true}) add_branch(end(false, b), end(true, !b), conductance(b), terms);
      for (const bool b : {false, true}) add_branch(end(false, b), end(true, b), -conductance(b), terms);
      return true;
    case FaultKind::weak_output:
      terms.push_back({{points_ + static_cast<Eigen::Index>(e)}, {1}, 1, -fault.parameter});
      return true;
    case FaultKind::wrong_gauge:
      return false;
    default:
      return true;  // a load, a lamp or a voltage: no branch
  }
}

std::optional<std::vector<Nearby::Term>> Nearby::terms(const std::vector<Fault>& faults, std::uint32_t lifted) const {
  std::vector<Term> found;
  std::vector<std::uint32_t> changed;  // segments
  for (const Fault& fault : faults) {
    if (!add(fault, found)) return std::nullopt;
    const bool on_segment = fault.kind == FaultKind::open || fault.kind == FaultKind::open_a ||
                            fault.kind == FaultKind::open_b || fault.kind == FaultKind::resistive ||
                            fault.kind == FaultKind::short_span || fault.kind == FaultKind::crossed;
    if (on_segment) changed.push_back(fault.element);
  }
  if (lifted != none) {
    add({FaultKind::open, lifted, 0}, found);
    changed.push_back(lifted);
  }
  std::sort(changed.begin(), changed.end());
  if (std::adjacent_find(changed.begin(), changed.end()) != changed.end()) return std::nullopt;
  return found;
}

std::optional<Nearby::Updated> Nearby::update(const Eigen::MatrixXd& inverse, const std::vector<Term>& terms) {
  Updated updated;
  for (const Term& term : terms) {
    Eigen::VectorXd w = Eigen::VectorXd::Zero(inverse.rows());
    for (std::size_t k = 0; k < term.count; ++k) w += term.weight[k] * inverse.col(term.at[k]);
    for (std::size_t k = 0; k < updated.w.size(); ++k) w -= updated.factor[k] * dot(term, updated.w[k]) * updated.w[k];
    const double left = 1 + term.value * dot(term, w);
    if (!(left > least_left)) return std::nullopt;
    updated.factor.push_back(term.value / left);
    updated.w.push_back(std::move(w));
  }
  return updated;
}

}  // namespace duskwire::diagnosis
