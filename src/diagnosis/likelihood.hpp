// SPDX-License-Identifier: Apache-2.0
// Likelihood: how well computed readings agree with those taken, under errors that they share, with a small chance that
// a reading is simply wrong. Internal to the room.
#pragma once

#include <Eigen/Core>
#include <vector>

#include "diagnosis/probe.hpp"

namespace duskwire::diagnosis {

// Logarithm of the sum of what x and y are logarithms of.
[[nodiscard]] double log_sum(double x, double y);

// Inverse covariance of the numeric readings.
struct Agreement {
  Eigen::MatrixXd precision;
  double log_determinant = 0;  // of the precision
  Eigen::MatrixXd
      log_without;  // by one or two readings: of the determinant of the precision's rows and columns of them
};

// `rows`: sensitivities (uncertainty.hpp); `meter_sigma`: of each reading on its own.
[[nodiscard]] Agreement agreement(const Eigen::MatrixXd& rows, const Eigen::VectorXd& meter_sigma);

// Natural logarithm of the density of `residual`; `wild`: log density of each reading where it is a wrong one.
[[nodiscard]] double log_density(const Agreement& agreement, const Eigen::VectorXd& residual,
                                 const Eigen::VectorXd& wild, double wrong_share);

// Squared distance of the readings from what was computed, in standard deviations: chi-square with one degree each.
[[nodiscard]] double distance2(const Agreement& agreement, const Eigen::VectorXd& residual);

// Of a lamp seen in some state while its share of full light is computed as `light`; `flickers`: the fault makes lamps
// flicker just now.
[[nodiscard]] double seen_chance(SeenLamp seen, double light, bool flickers);
[[nodiscard]] double log_seen_chance(SeenLamp seen, double light, bool flickers);

// That a fault which may make lamps flicker does so while they are looked at: all of them or none.
inline constexpr double flickers_now = 0.25;

}  // namespace duskwire::diagnosis
