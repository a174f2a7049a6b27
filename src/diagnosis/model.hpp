// SPDX-License-Identifier: Apache-2.0
// Model: one problem made ready to be asked "what would be read if these faults were there, and how well does that
// agree with what was read?". Internal to the room.
#pragma once

#include <Eigen/Core>
#include <vector>

#include "diagnosis/likelihood.hpp"
#include "diagnosis/nearby.hpp"
#include "diagnosis/state.hpp"
#include "diagnosis/uncertainty.hpp"

namespace duskwire::diagnosis {

// What one set of faults makes of all probes.
struct Outlook {
  Eigen::VectorXd measured;      // what the numeric observations should have shown
  double log_seen = 0;           // log likelihood of the observations of states: light of lamps, breakers
  double log_seen_unsteady = 0;  // where the fault may make lamps flicker
  Eigen::VectorXf future;        // what the candidates would show
  std::vector<bool> dark;        // whether the lamp beside the candidate is dark
  std::vector<bool> out;         // by load: dark, with all as it is
  bool trips = false;            // some device opens
  Agreement agreement;
};

class Model {
 public:
  // `foresees`: whether it will be asked what to read next.
  explicit Model(const FaultProblem& problem, bool foresees = true);
  Model(const Model&) = delete;  // its parts refer to each other
  Model& operator=(const Model&) = delete;

  [[nodiscard]] const FaultProblem& problem() const { return problem_; }
  [[nodiscard]] bool foresees() const { return foresees_; }
  [[nodiscard]] const std::vector<Probe>& numeric_probes() const { return numeric_probes_; }
  [[nodiscard]] std::size_t numeric_observation(std::size_t k) const { return numeric_[k]; }
  [[nodiscard]] const Eigen::VectorXd& values() const { return values_; }
  [[nodiscard]] const Uncertainty& uncertainty() const { return uncertainty_; }
  // Of the meter, and of what the model knows only roughly about such a reading, at what was computed.
  [[nodiscard]] Eigen::VectorXd own_sigma(const Eigen::VectorXd& computed) const;

  [[nodiscard]] const Outlook& sound() const { return sound_; }
  [[nodiscard]] const State& sound_state() const { return sound_state_; }
  // Outlooks at several places of one span share their states.
  [[nodiscard]] std::vector<Outlook> outlooks(const std::vector<Fault>& faults, const std::vector<std::uint32_t>& at,
                                              bool with_future) const;
  [[nodiscard]] State settled(const std::vector<Fault>& faults, std::uint32_t lifted = none) const;
  [[nodiscard]] bool distinguishes_ends_of(std::uint32_t segment) const;

  // Log likelihood with the agreement of the outlook nearest by.
  [[nodiscard]] double log_likelihood(const Outlook& nearest, const Eigen::VectorXd& measured, bool unsteady) const;

 private:
  [[nodiscard]] std::uint32_t trips_when_crossed(const Fault& fault) const;
  [[nodiscard]] std::uint32_t surely_tripped(const std::vector<Fault>& faults) const;
  template <class StateOf>
  void foresee(const StateOf& state_of, std::uint32_t at, Outlook& outlook) const;
  void add_state(std::size_t observation);
  void judge_seen(const Eigen::VectorXd& seen, Outlook& outlook) const;
  [[nodiscard]] double value(const State& state, const Probe& probe, std::uint32_t at) const;

  const FaultProblem& problem_;
  bool foresees_ = true;
  Nearby nearby_;
  Uncertainty uncertainty_;
  bool reads_ohm_ = false;
  std::vector<std::size_t> numeric_;  // observations, by index
  std::vector<std::size_t> states_;
  std::vector<Probe> numeric_probes_;
  Eigen::VectorXd values_;
  Eigen::VectorXd meter_sigma_;
  Eigen::VectorXd wild_;
  std::vector<std::uint32_t> lifted_;  // distinct, `none` first
  std::vector<State> tripped_;         // by output: its device open, all else sound
  State sound_state_;
  Outlook sound_;
};

[[nodiscard]] bool is_state(Quantity quantity);
[[nodiscard]] bool is_volts(Quantity quantity);
// Standard deviation, as a share of what is computed, of quantities that the first-order rows do not cover.
[[nodiscard]] double loose_share(Quantity quantity);
// Whether a fault of this kind makes lamps flicker.
[[nodiscard]] bool is_unsteady(FaultKind kind);

}  // namespace duskwire::diagnosis
