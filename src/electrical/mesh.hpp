// SPDX-License-Identifier: Apache-2.0
// Meshed parts of a network: both conductors as they are, nodal analysis with explicit currents for outputs and for
// edges of (nearly) no resistance, solved by a sparse symmetric factorisation. Internal to the room.
//
//   unknowns  u (potential of each conductor at each node), i (explicit branch currents)
//   KCL       sum g (u_p - u_q) + sum i + load lines = 0 at each conductor point
//   branch    u_p - u_q - r i = 0 where r is (nearly) nothing; there the matrix holds a floor resistance instead, so
//             that it stays small and well conditioned, and refinement against the true equation removes the floor
//   output    -(u_a - u_b) - r_own i - r_shared (sum of the transformer's i) = -emf,  i leaves through conductor A
//
// The matrix is symmetric quasi-definite (Vanderbei 1995, from memory), so LDL^T exists in any order once both
// diagonals are nudged by a small number; the nudge stays out of the residual, and refinement removes its effect.
#pragma once

#include <Eigen/SparseCore>
#include <cstdint>
#include <vector>

#include "electrical/careful.hpp"
#include "electrical/iteration.hpp"
#include "electrical/loads.hpp"
#include "electrical/network.hpp"
#include "electrical/partition.hpp"
#include "electrical/symmetric_factor.hpp"

namespace duskwire::electrical {

struct MeshPart {
  // A resistance between two conductor points; `current` is its unknown where it is explicit.
  struct Edge {
    std::uint32_t p = 0;
    std::uint32_t q = 0;
    double copper_ohm = 0;
    double fixed_ohm = 0;
    std::uint32_t current = nothing;  // index into the state beyond the matrix
    std::uint32_t segment = nothing;  // one of both is set
    std::uint32_t bridge = nothing;
    bool conductor_b = false;  // of the segment
    int at = -1;               // place of its off-diagonal in the matrix values
  };
  struct Source {
    std::uint32_t a = 0;
    std::uint32_t b = 0;
    std::uint32_t current = 0;
    std::uint32_t output = 0;  // in the network
  };
  struct Coupling {  // r_shared between two explicit output currents
    std::uint32_t i = 0;
    std::uint32_t j = 0;
    double r_ohm = 0;
    int at = -1;
  };
  struct Lamp {
    std::uint32_t plus = 0;
    std::uint32_t minus = 0;
    int at = -1;  // off-diagonal place; -1: both leads on one point
  };

  std::vector<std::uint32_t> nodes;  // of the network, in local order; unknown of (local node k, conductor c) is 2k + c
  std::uint32_t unknowns = 0;        // of the matrix: potentials and output currents
  std::uint32_t total = 0;           // of the state: explicit edge currents follow
  std::vector<Edge> edges;
  std::vector<Source> sources;
  std::vector<Coupling> couplings;
  std::vector<Lamp> lamps;  // in the order of `bank`
  LoadBank bank;
  // Conductor points joined by metal have one cluster; `fed` if an output is among them.
  std::vector<std::uint32_t> cluster;
  std::vector<std::uint8_t> fed;
  SparseMatrix pattern;  // lower triangle
  std::vector<int> at_diagonal;
};

// All meshed parts, in the partition's order.
[[nodiscard]] std::vector<MeshPart> build_mesh_parts(const Network& network, const Partition& partition);

// Arrays of one solve.
struct MeshState {
  Eigen::VectorXd x;
  Eigen::VectorXd saved_x;
  Eigen::VectorXd residual;
  Eigen::VectorXd update;
  SparseMatrix matrix;
  std::vector<double> base_values;  // matrix without load slopes, in force
  Eigen::VectorXd rhs;
  std::vector<double> edge_ohm;
  std::vector<double> source_ohm;  // r_own
  std::vector<double> emf_v;
  std::vector<double> s_va;
  std::vector<double> special_s_va;
  std::vector<double> v;  // of lamps
  std::vector<double> slope_s;
  std::vector<double> offset_a;
  SymmetricFactor factor;
};

void prepare_state(MeshState& state, const MeshPart& part);
void load_condition(MeshState& state, const MeshPart& part, const Network& network, const Condition& condition);

class MeshBackend {
 public:
  MeshBackend(const MeshPart& part, MeshState& state) : part_(part), state_(state) {}

  [[nodiscard]] double tolerance_a() const { return 0.5 * residual_tolerance_a; }
  void start_unloaded();
  LinearisationCheck linearise(Linearisation mode);
  bool step() { return step_to(enough_a); }
  bool step_fully() { return step_to(0); }
  [[nodiscard]] std::uint32_t dark_lamps() const { return count_dark(lamps(), state_.v.data()); }
  // The careful iteration, from the present volts: see careful.hpp.
  void begin_careful();
  double follow_laws(double stride);  // the residual of the lines held before
  void lay_flat();
  void save() { state_.saved_x = state_.x; }
  void restore();
  // Metal that neither an output nor a lamp with power ties to anything takes the potential of the conductor beside it,
  // so that a loose end reads 0 volts.
  void settle_loose_ends();
  [[nodiscard]] bool not_above_saved() const;
  // No steady state lies between this one and the saved volts: see lay_chords().
  [[nodiscard]] bool is_highest();

  // Factorises the network with the present load slopes; then solves for injected currents (right-hand side), with
  // refinement. Used for driving-point resistances.
  bool factorise();
  void solve_linear(const Eigen::VectorXd& rhs, Eigen::VectorXd& x);

 private:
  // To what imbalance a step is refined that others follow.
  static constexpr double enough_a = 0.01 * residual_tolerance_a;

  bool step_to(double imbalance_a);
  void read_lamp_volts();
  // update = approximate inverse of the linear network applied to residual.
  void correct(const Eigen::VectorXd& residual, Eigen::VectorXd& update);
  // b - A x for the linear network with the present lines.
  void residual_of(const Eigen::VectorXd& x, const Eigen::VectorXd* rhs);

  [[nodiscard]] LampRange lamps() const;

  const MeshPart& part_;
  MeshState& state_;
  std::vector<double> at_v_;  // where the lines of the careful iteration touch
};

}  // namespace duskwire::electrical
