// SPDX-License-Identifier: Apache-2.0
// L D L^T of a sparse symmetric matrix whose pattern stays while its values change: order and places of the factor are
// found once for a pattern and shared by all that have it, so that the factorisation itself allocates nothing.
// Up-looking, row by row (Davis, Direct Methods for Sparse Linear Systems, 2006, chapter 4, from memory). Internal to
// the room.
#pragma once

#include <Eigen/Core>
#include <Eigen/SparseCore>
#include <memory>
#include <vector>

namespace duskwire::electrical {

using SparseMatrix = Eigen::SparseMatrix<double, Eigen::ColMajor, int>;

// What the pattern alone decides.
struct FactorPlan;

class SymmetricFactor {
 public:
  // `lower`: lower triangle, compressed, with every diagonal entry. Its values are not read.
  void analyse(const SparseMatrix& lower);
  // Of a matrix with the pattern analysed. False where a pivot is nothing or not finite.
  bool factorise(const SparseMatrix& lower);
  void solve(const Eigen::VectorXd& rhs, Eigen::Ref<Eigen::VectorXd> x);
  // By Sylvester's law of inertia as many as the matrix has negative eigenvalues.
  [[nodiscard]] Eigen::Index negative_pivots() const { return (pivot_.array() < 0).count(); }

 private:
  std::shared_ptr<const FactorPlan> plan_;
  std::vector<double> l_;    // by place of the plan, column after column
  std::vector<int> filled_;  // where the next entry of a column goes
  Eigen::VectorXd pivot_;    // D, in the plan's order
  Eigen::VectorXd work_;     // a row of the matrix, then a right-hand side, in the plan's order
};

}  // namespace duskwire::electrical
