// SPDX-License-Identifier: Apache-2.0
#include "diagnosis/beside_plan.hpp"

#include <cmath>

namespace duskwire::diagnosis {

std::vector<Compared> beside_plan(const Model& model) {
  const Eigen::VectorXd& sound = model.sound().measured;
  const Eigen::MatrixXd rows = model.uncertainty().rows(model.sound_state(), model.numeric_probes());
  const Eigen::VectorXd own = model.own_sigma(sound);
  std::vector<Compared> result;
  for (Eigen::Index k = 0; k < model.values().size(); ++k) {
    Compared one;
    one.observation = static_cast<std::uint32_t>(model.numeric_observation(static_cast<std::size_t>(k)));
    one.predicted = one.explained = sound[k];
    one.predicted_sigma = std::hypot(own[k], rows.row(k).norm());
    one.in_tolerance = std::abs(model.values()[k] - one.predicted) <= 2 * one.predicted_sigma;
    result.push_back(one);
  }
  return result;
}

std::vector<Compared> beside_plan(const FaultProblem& problem) { return beside_plan(Model(problem, false)); }

}  // namespace duskwire::diagnosis
