// SPDX-License-Identifier: Apache-2.0
// Uncertainty: how far a computed reading may be off because the plan is not the garden. Errors that several readings
// share (mains, temperature, lengths of common cable, lamps of one make) are carried as such: a row of sensitivities
// per reading, one column per source of error. Internal to the room.
//
// The rows are of first order, about the state in question. Where all lamps stay in regulation they are exact (see
// nearby.hpp); elsewhere the transfer resistances are those of the healthy network with each cable as one loop
// resistance, the drops and currents those of the state.
#pragma once

#include <Eigen/Core>
#include <optional>
#include <vector>

#include "diagnosis/nearby.hpp"
#include "diagnosis/state.hpp"

namespace duskwire::diagnosis {

class Uncertainty {
 public:
  Uncertainty(const FaultProblem& problem, const Nearby& nearby);

  // Least current that a short of that kind draws from the output that feeds it, lamps left out; 0 for other faults.
  [[nodiscard]] double least_short_a(const Fault& fault) const;

  // What an ohmmeter at `node` sees of one short: the cable to it and the short itself. None where the fault joins no
  // conductors in such a simple way.
  [[nodiscard]] std::optional<double> through_short_ohm(const Fault& fault, std::uint32_t node) const;

  // Standard deviations by source: rows(i) . rows(k) is the covariance of two computed readings.
  [[nodiscard]] Eigen::MatrixXd rows(const State& state, const std::vector<Probe>& probes) const;

 private:
  struct Bridge {
    std::uint32_t from = none;
    std::uint32_t to = none;
    std::uint32_t segment = none;
    double across_ohm = 0;  // of that segment
    bool joined = true;     // by cable with where the ohmmeter is
  };
  [[nodiscard]] std::optional<Bridge> bridge(const Fault& fault, std::uint32_t node) const;
  [[nodiscard]] double unit_v(std::uint32_t node, const Bridge& at, std::uint32_t where) const;
  void add_ohms(const State& state, const Probe& probe, Eigen::Ref<Eigen::RowVectorXd> row) const;
  struct Sources {  // by segment and load
    Eigen::VectorXd drop_v;
    Eigen::VectorXd load_a;
    double mains_load_share = 0;  // relative change of current per relative change of volts
  };
  [[nodiscard]] Sources sources(const State& state) const;
  void add_volts(const Sources& sources, std::uint32_t node, double factor, Eigen::Ref<Eigen::RowVectorXd> row) const;
  void fill(const State& state, const Sources& sources, const Probe& probe, Eigen::Ref<Eigen::RowVectorXd> row) const;
  void fill_cable(const State& state, const Sources& sources, const Probe& probe,
                  Eigen::Ref<Eigen::RowVectorXd> row) const;

  const FaultProblem& problem_;
  const Nearby& nearby_;
  Eigen::MatrixXd transfer_ohm_;   // node by node
  Eigen::VectorXd conductance_s_;  // by segment
  Eigen::Index segments_ = 0;
  Eigen::Index loads_ = 0;
};

}  // namespace duskwire::diagnosis
