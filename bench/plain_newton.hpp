// SPDX-License-Identifier: Apache-2.0
// Newton's method on the reduced network with a general sparse factorisation, as a circuit or power-flow program would:
// the pattern is analysed once, each iteration changes the diagonal, factorises and solves. Flat start, KCL to 1e-9 A.
#pragma once

#include <klu.h>

#include <Eigen/SparseCholesky>
#include <Eigen/SparseCore>
#include <vector>

#include "garden.hpp"

namespace duskwire::bench {

// Unknowns are the volts of all slots; sources are their current behind the winding's resistance.
class NodalGarden {
 public:
  explicit NodalGarden(const ReducedGarden& garden);

  void start();
  // Fills `mismatch` (minus KCL) and puts the lamps' slopes on the matrix's diagonal; the largest mismatch.
  double linearise();
  void add(const double* update);

  Eigen::SparseMatrix<double> matrix;  // both triangles
  std::vector<double> mismatch_a;
  [[nodiscard]] const std::vector<double>& volts() const { return v_; }
  [[nodiscard]] int size() const { return static_cast<int>(v_.size()); }

 private:
  const ReducedGarden& garden_;
  std::vector<double> v_;
  std::vector<double> g_s_;
  std::vector<double> diagonal_s_;   // without lamps
  std::vector<int> diagonal_place_;  // in the matrix's values
};

class EigenNewton {
 public:
  explicit EigenNewton(const ReducedGarden& garden);
  int solve();
  [[nodiscard]] const std::vector<double>& volts() const { return nodal_.volts(); }

 private:
  NodalGarden nodal_;
  Eigen::SimplicialLDLT<Eigen::SparseMatrix<double>> factor_;
  Eigen::VectorXd update_;
};

class KluNewton {
 public:
  explicit KluNewton(const ReducedGarden& garden);
  ~KluNewton();
  KluNewton(const KluNewton&) = delete;
  KluNewton& operator=(const KluNewton&) = delete;
  int solve();
  [[nodiscard]] const std::vector<double>& volts() const { return nodal_.volts(); }

 private:
  NodalGarden nodal_;
  klu_common common_;
  klu_symbolic* symbolic_ = nullptr;
  klu_numeric* numeric_ = nullptr;
};

}  // namespace duskwire::bench
