// SPDX-License-Identifier: Apache-2.0
#include "plain_newton.hpp"

#include <algorithm>
#include <cmath>

namespace duskwire::bench {
namespace {

constexpr double tolerance_a = 1e-9;
constexpr int most_iterations = 50;

}  // namespace

NodalGarden::NodalGarden(const ReducedGarden& garden)
    : mismatch_a(garden.parent.size()), garden_(garden), v_(garden.parent.size()) {
  const auto count = static_cast<int>(v_.size());
  diagonal_s_.assign(v_.size(), 0.0);
  std::vector<Eigen::Triplet<double>> entries;
  for (int k = 0; k < count; ++k) {
    const auto at = static_cast<std::size_t>(k);
    const double g_s = 1.0 / garden.r_ohm[at];
    g_s_.push_back(g_s);
    diagonal_s_[at] += g_s;
    entries.emplace_back(k, k, 1.0);
    const auto parent = static_cast<int>(garden.parent[at]);
    if (parent == k) continue;
    diagonal_s_[static_cast<std::size_t>(parent)] += g_s;
    entries.emplace_back(k, parent, -g_s);
    entries.emplace_back(parent, k, -g_s);
  }
  matrix.resize(count, count);
  matrix.setFromTriplets(entries.begin(), entries.end());
  for (int k = 0; k < count; ++k) {
    const int* begin = matrix.innerIndexPtr() + matrix.outerIndexPtr()[k];
    const int* end = matrix.innerIndexPtr() + matrix.outerIndexPtr()[k + 1];
    diagonal_place_.push_back(static_cast<int>(std::lower_bound(begin, end, k) - matrix.innerIndexPtr()));
  }
}

void NodalGarden::start() { std::fill(v_.begin(), v_.end(), source_v); }

double NodalGarden::linearise() {
  double* value = matrix.valuePtr();
  std::fill(mismatch_a.begin(), mismatch_a.end(), 0.0);
  for (std::size_t k = 0; k < v_.size(); ++k) {
    const std::uint32_t parent = garden_.parent[k];
    const double in_a = g_s_[k] * ((parent == k ? source_v : v_[parent]) - v_[k]);
    const double inverse = 1.0 / std::max(v_[k], garden_.v_regulation[k]);
    const double lamp_a = garden_.s_va[k] * inverse;
    mismatch_a[k] += in_a - lamp_a;
    if (parent != k) mismatch_a[parent] -= in_a;
    value[diagonal_place_[k]] = diagonal_s_[k] - (v_[k] > garden_.v_regulation[k] ? lamp_a * inverse : 0.0);
  }
  double worst = 0;
  for (const double a : mismatch_a) worst = std::max(worst, std::abs(a));
  return worst;
}

void NodalGarden::add(const double* update) {
  for (std::size_t k = 0; k < v_.size(); ++k) v_[k] += update[k];
}

EigenNewton::EigenNewton(const ReducedGarden& garden) : nodal_(garden), update_(nodal_.size()) {
  factor_.analyzePattern(nodal_.matrix);
}

int EigenNewton::solve() {
  nodal_.start();
  for (int iteration = 0; iteration < most_iterations; ++iteration) {
    if (nodal_.linearise() < tolerance_a) return iteration;
    factor_.factorize(nodal_.matrix);
    update_ = factor_.solve(Eigen::Map<const Eigen::VectorXd>(nodal_.mismatch_a.data(), nodal_.size()));
    nodal_.add(update_.data());
  }
  return most_iterations;
}

KluNewton::KluNewton(const ReducedGarden& garden) : nodal_(garden) {
  klu_defaults(&common_);
  nodal_.start();
  nodal_.linearise();
  Eigen::SparseMatrix<double>& matrix = nodal_.matrix;
  symbolic_ = klu_analyze(nodal_.size(), matrix.outerIndexPtr(), matrix.innerIndexPtr(), &common_);
  numeric_ = klu_factor(matrix.outerIndexPtr(), matrix.innerIndexPtr(), matrix.valuePtr(), symbolic_, &common_);
}

KluNewton::~KluNewton() {
  klu_free_numeric(&numeric_, &common_);
  klu_free_symbolic(&symbolic_, &common_);
}

int KluNewton::solve() {
  Eigen::SparseMatrix<double>& matrix = nodal_.matrix;
  nodal_.start();
  for (int iteration = 0; iteration < most_iterations; ++iteration) {
    if (nodal_.linearise() < tolerance_a) return iteration;
    klu_refactor(matrix.outerIndexPtr(), matrix.innerIndexPtr(), matrix.valuePtr(), symbolic_, numeric_, &common_);
    klu_solve(symbolic_, numeric_, nodal_.size(), 1, nodal_.mismatch_a.data(), &common_);
    nodal_.add(nodal_.mismatch_a.data());
  }
  return most_iterations;
}

}  // namespace duskwire::bench
