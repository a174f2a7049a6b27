// SPDX-License-Identifier: Apache-2.0
// The sparse factor against dense ones, on seeded random symmetric quasi-definite matrices.
#include "electrical/symmetric_factor.hpp"

#include <gtest/gtest.h>

#include <Eigen/Dense>
#include <vector>

#include "electrical/random_networks.hpp"

namespace duskwire::electrical {
namespace {

using testing::Dice;

struct Case {
  SparseMatrix lower;
  Eigen::MatrixXd dense;
  Eigen::Index negative = 0;
};

// Positive on the first diagonal entries, negative on the rest: quasi-definite by dominance.
Case random_case(int n, Dice& dice) {
  Case one;
  one.dense = Eigen::MatrixXd::Zero(n, n);
  for (int i = 0; i < n; ++i) {
    const auto links = static_cast<int>(dice.below(3));
    for (int k = 0; k < links && i > 0; ++k) {
      const auto j = static_cast<int>(dice.below(static_cast<std::uint32_t>(i)));
      one.dense(i, j) = one.dense(j, i) = dice.uniform(-2, 2);
    }
  }
  std::vector<Eigen::Triplet<double>> entries;
  for (int i = 0; i < n; ++i) {
    const bool below_zero = i > 0 && dice.chance(0.2);
    one.negative += below_zero;
    one.dense(i, i) = (below_zero ? -1 : 1) * (one.dense.row(i).cwiseAbs().sum() + dice.uniform(0.1, 3));
    for (int j = 0; j <= i; ++j) {
      if (one.dense(i, j) != 0) entries.emplace_back(i, j, one.dense(i, j));
    }
  }
  one.lower.resize(n, n);
  one.lower.setFromTriplets(entries.begin(), entries.end());
  one.lower.makeCompressed();
  return one;
}

Eigen::VectorXd solved(SymmetricFactor& factor, const Case& one, const Eigen::VectorXd& rhs) {
  factor.analyse(one.lower);
  EXPECT_TRUE(factor.factorise(one.lower));
  Eigen::VectorXd x(rhs.size());
  factor.solve(rhs, x);
  return x;
}

TEST(SymmetricFactor, SolvesAndCountsAsADenseOneDoes) {
  Dice dice(701);
  for (int round = 0; round < 200; ++round) {
    const int n = 1 + static_cast<int>(dice.below(60));
    const Case one = random_case(n, dice);
    Eigen::VectorXd rhs(n);
    for (double& value : rhs) value = dice.uniform(-5, 5);
    SymmetricFactor factor;
    const Eigen::VectorXd x = solved(factor, one, rhs);
    EXPECT_LE((one.dense * x - rhs).cwiseAbs().maxCoeff(), 1e-10) << "round " << round;
    const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> eigen(one.dense, Eigen::EigenvaluesOnly);
    EXPECT_EQ(factor.negative_pivots(), (eigen.eigenvalues().array() < 0).count()) << "round " << round;
    EXPECT_EQ(factor.negative_pivots(), one.negative) << "round " << round;
  }
}

// Plans are kept from pattern to pattern: which came before must not show.
TEST(SymmetricFactor, GivesTheSameBitsWhateverWasFactorisedBefore) {
  Dice dice(702);
  std::vector<Case> cases;
  std::vector<Eigen::VectorXd> alone;
  for (int k = 0; k < 20; ++k) {
    cases.push_back(random_case(30, dice));
    SymmetricFactor factor;
    alone.push_back(solved(factor, cases.back(), Eigen::VectorXd::Ones(30)));
  }
  SymmetricFactor factor;
  for (const std::size_t k : {0U, 19U, 3U, 0U, 11U, 18U, 19U, 3U}) {
    EXPECT_EQ(solved(factor, cases[k], Eigen::VectorXd::Ones(30)), alone[k]) << k;
  }
}

TEST(SymmetricFactor, SaysThatAPivotIsNothing) {
  SparseMatrix lower(2, 2);
  lower.insert(0, 0) = 1;
  lower.insert(1, 0) = 1;
  lower.insert(1, 1) = 1;
  lower.makeCompressed();
  SymmetricFactor factor;
  factor.analyse(lower);
  EXPECT_FALSE(factor.factorise(lower));
}

}  // namespace
}  // namespace duskwire::electrical
