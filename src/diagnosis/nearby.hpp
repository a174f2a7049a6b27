// SPDX-License-Identifier: Apache-2.0
// Nearby: what a network settles to whose branches differ from the plan's in a few places. One dense inverse of the
// planned network serves every fault: an opened conductor, ohms in a joint, a short are changes of low rank (Sherman
// and Morrison 1950, from memory), and the lamps, whose laws bend little while they are in regulation, are iterated
// with the slopes of the plan. Used for the hundreds of faults that leave every lamp in regulation, and for what an
// ohmmeter reads; all else is solved afresh. Internal to the room.
//
//   Y x = f - B q(v),  q = I(v) - s v,  v = B^T x      s: slopes of the lamps as planned, part of Y
//   (Y + sum c u u^T)(x - x_plan) = df - B (q - q_plan) - sum c u (u^T x_plan)
//
// Held slopes come to rest only where the linearised network stands, which is at the higher of two states: the operator
// of one step is Z diag(s - s(v)), not negative, and of radius below 1 exactly there. The one more load that a fault
// may add keeps its own slope, since it draws more than any lamp: a regular splitting of the same matrix, whose radius
// is below 1 in the same place (Varga 1962, from memory).
#pragma once

#include <Eigen/Core>
#include <array>
#include <cstdint>
#include <optional>
#include <vector>

#include "diagnosis/fault.hpp"
#include "diagnosis/probe.hpp"
#include "electrical/loads.hpp"
#include "electrical/solution.hpp"

namespace duskwire::diagnosis {

struct State;

class Nearby {
  // The inverse with changes in it: inverse - sum factor w w^T.
  struct Updated {
    std::vector<Eigen::VectorXd> w;
    std::vector<double> factor;
  };

 public:
  explicit Nearby(const FaultProblem& problem);

  // None where a lamp leaves regulation, where a fault changes more than a few branches, or cuts something off.
  [[nodiscard]] std::optional<electrical::Solution> solve(const std::vector<Fault>& faults, const Faulted& faulted,
                                                          std::uint32_t lifted) const;

  // How far sources of error move readings of a state that solve() gave, exact to first order about it.
  class Slopes {
   public:
    // Into `row`: standard deviations by segment, by load, then of mains, copper and all loads together. False for
    // what is not volts or amperes of the plan's own nodes and cables.
    bool fill(const Probe& probe, Eigen::Ref<Eigen::RowVectorXd> row) const;

   private:
    friend class Nearby;
    const Nearby* nearby_ = nullptr;
    const State* state_ = nullptr;
    Updated updated_;
  };
  [[nodiscard]] std::optional<Slopes> slopes(const State& state) const;

  // By node: ohms between its conductors with all outputs lifted and the lamps off; far above `most_ohm` where they are
  // apart. Empty where that cannot be told from here.
  [[nodiscard]] std::vector<double> loop_ohm(const std::vector<Fault>& faults, std::uint32_t lifted) const;

 private:
  // `value` times the outer product of a sparse vector with itself, added to the matrix.
  struct Term {
    std::array<Eigen::Index, 4> at{};
    std::array<double, 4> weight{};
    std::size_t count = 0;
    double value = 0;
  };
  struct Ports;

  // Of the matrix: the potential of a conductor at a node.
  static Eigen::Index point(std::uint32_t node, bool b) { return 2 * static_cast<Eigen::Index>(node) + (b ? 1 : 0); }
  // Whether it is an LED that has a range to hold.
  static bool has_range(const electrical::Load& load, double level) {
    return electrical::is_led(load.kind) && load.power_va > 0 && level > 0;
  }

  [[nodiscard]] bool is_plain() const;
  void invert();
  void settle_plan();
  [[nodiscard]] std::optional<std::vector<Term>> terms(const std::vector<Fault>& faults, std::uint32_t lifted) const;
  bool add(const Fault& fault, std::vector<Term>& terms) const;
  void add_branch(Eigen::Index p, Eigen::Index q, double value, std::vector<Term>& terms) const;
  [[nodiscard]] Term across(std::uint32_t node, double value) const;
  [[nodiscard]] double conductor_ohm(std::uint32_t segment, bool b) const;
  static std::optional<Updated> update(const Eigen::MatrixXd& inverse, const std::vector<Term>& terms);
  static double dot(const Term& term, const Eigen::VectorXd& x);
  bool iterate(const Faulted& faulted, const Updated& updated, Ports& ports) const;
  [[nodiscard]] electrical::Solution read_out(const Faulted& faulted, const std::vector<Fault>& faults,
                                              const Eigen::VectorXd& x, const Ports& ports) const;

  const FaultProblem& problem_;
  bool usable_ = false;
  Eigen::Index points_ = 0;  // two to a node: conductors A and B
  Eigen::Index lamps_ = 0;
  Eigen::MatrixXd inverse_;      // potentials, then currents of outputs; with the lamps' slopes
  Eigen::MatrixXd bare_;         // cables alone
  Eigen::MatrixXd by_lamp_;      // inverse_ B
  Eigen::MatrixXd among_lamps_;  // B^T inverse_ B
  Eigen::VectorXd plan_x_;
  Eigen::VectorXd slope_s_;  // by lamp
  Eigen::VectorXd plan_q_a_;
};

}  // namespace duskwire::diagnosis
