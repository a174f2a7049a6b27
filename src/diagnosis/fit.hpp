// SPDX-License-Identifier: Apache-2.0
// Fit: one group of faults against the readings. The parameter is integrated out over its prior, so that a fault that
// can explain anything does not beat one that says just this. Internal to the room.
#pragma once

#include <vector>

#include "diagnosis/hypotheses.hpp"
#include "diagnosis/model.hpp"

namespace duskwire::diagnosis {

// One value of the parameter with its share of the posterior, and what it foretells.
struct Piece {
  double parameter = 0;
  double share = 0;  // within the fit
  Eigen::VectorXd measured;
  Eigen::VectorXf future;
  std::vector<bool> dark;  // beside each candidate
  std::vector<bool> out;   // by load
};

struct PlaceFit {
  std::uint32_t place = none;
  double log_evidence = 0;  // of the readings, parameter integrated out
  double parameter = 0;     // posterior mean (of its logarithm)
  double log_sigma = 0;     // posterior standard deviation of its logarithm; 0 without a parameter
  std::vector<Piece> pieces;
};

// One entry per place of the group. `beside`: faults that are there as well. `computed`: is given what the numeric
// observations should have shown, by trial.
[[nodiscard]] std::vector<PlaceFit> fit(const Model& model, const Group& group, const std::vector<Fault>& beside = {},
                                        std::vector<Eigen::VectorXd>* computed = nullptr);

// Again, with the network solved close to where `rough` found the parameter; more rounds come closer.
[[nodiscard]] std::vector<PlaceFit> refine(const Model& model, const Group& group, const std::vector<PlaceFit>& rough,
                                           int rounds, const std::vector<Fault>& beside = {});

}  // namespace duskwire::diagnosis
