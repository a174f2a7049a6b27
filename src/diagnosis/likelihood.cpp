// SPDX-License-Identifier: Apache-2.0
#include "diagnosis/likelihood.hpp"

#include <Eigen/Cholesky>
#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <vector>

namespace duskwire::diagnosis {
namespace {

const double log_2pi = std::log(2 * std::numbers::pi);

}  // namespace

double log_sum(double x, double y) {
  const double high = std::max(x, y);
  return std::isinf(high) ? high : high + std::log1p(std::exp(std::min(x, y) - high));
}

Agreement agreement(const Eigen::MatrixXd& rows, const Eigen::VectorXd& meter_sigma) {
  Eigen::MatrixXd covariance = rows * rows.transpose();
  covariance.diagonal() += meter_sigma.array().square().matrix();
  const Eigen::LLT<Eigen::MatrixXd> factor(covariance);
  Agreement result;
  result.precision = factor.solve(Eigen::MatrixXd::Identity(covariance.rows(), covariance.cols()));
  result.log_determinant = -2 * factor.matrixLLT().diagonal().array().log().sum();
  const Eigen::Index n = covariance.rows();
  result.log_without.resize(n, n);
  for (Eigen::Index i = 0; i < n; ++i) {
    const double p_ii = result.precision(i, i);
    result.log_without(i, i) = std::log(p_ii);
    for (Eigen::Index k = i + 1; k < n; ++k) {
      const double det = p_ii * result.precision(k, k) - std::pow(result.precision(i, k), 2);
      result.log_without(i, k) = result.log_without(k, i) = det > 0 ? std::log(det) : HUGE_VAL;
    }
  }
  return result;
}

double distance2(const Agreement& agreement, const Eigen::VectorXd& residual) {
  return residual.dot(agreement.precision * residual);
}

// The mixture over none, one or two wrong readings. Leaving readings out of a Gaussian needs no new factor: with
// z = P e, the distance falls by z_i^2 / P_ii and the determinant of the precision by P_ii (for two, the 2 x 2 block).
double log_density(const Agreement& agreement, const Eigen::VectorXd& residual, const Eigen::VectorXd& wild,
                   double wrong_share) {
  const Eigen::Index n = residual.size();
  if (n == 0) return 0;
  const Eigen::VectorXd z = agreement.precision * residual;
  const double all = 0.5 * (agreement.log_determinant - residual.dot(z) - static_cast<double>(n) * log_2pi);
  if (wrong_share <= 0) return all;
  const double right = std::log1p(-wrong_share);
  const double wrong = std::log(wrong_share);
  // Sums of exponentials about a common height, so that each term costs one exponential.
  const double height = all + static_cast<double>(n) * right;
  double most = height;
  thread_local std::vector<double> terms;
  terms.clear();
  const auto take = [&](double term) {
    terms.push_back(term);
    most = std::max(most, term);
  };
  for (Eigen::Index i = 0; i < n; ++i) {
    const double p_ii = agreement.precision(i, i);
    const double without = all + 0.5 * (z[i] * z[i] / p_ii - agreement.log_without(i, i) + log_2pi);
    take(without + wild[i] + wrong + static_cast<double>(n - 1) * right);
    for (Eigen::Index k = i + 1; k < n; ++k) {
      const double p_kk = agreement.precision(k, k);
      const double p_ik = agreement.precision(i, k);
      const double det = p_ii * p_kk - p_ik * p_ik;
      if (det <= 0) continue;
      const double fall = (z[i] * z[i] * p_kk - 2 * z[i] * z[k] * p_ik + z[k] * z[k] * p_ii) / det;
      const double pair = all + 0.5 * (fall - agreement.log_without(i, k)) + log_2pi;
      take(pair + wild[i] + wild[k] + 2 * wrong + static_cast<double>(n - 2) * right);
    }
  }
  if (std::isinf(most)) return most;
  constexpr double negligible = 30;  // nats
  double sum = std::exp(height - most);
  for (const double term : terms) sum += term > most - negligible ? std::exp(term - most) : 0;
  return most + std::log(sum);
}

namespace {

constexpr std::size_t seen_count = 4;
constexpr std::size_t row_count = 3;

// Rows: what is computed (dark, dim, lit); columns: lit, dim, dark, flickering. Common practice, no source.
constexpr double seen_table[row_count][seen_count] = {
    {0.005, 0.015, 0.97, 0.01}, {0.30, 0.60, 0.05, 0.05}, {0.93, 0.05, 0.01, 0.01}};

std::size_t row_of(double light) { return light < 0.03 ? 0 : light < 0.75 ? 1 : 2; }

double seen_chance(SeenLamp seen, std::size_t row, bool flickers) {
  constexpr double share = 0.5;  // of the lamps, while the fault makes lamps flicker
  const double plain = seen_table[row][static_cast<std::size_t>(seen)];
  if (!flickers) return plain;
  return (1 - share) * plain + (seen == SeenLamp::flickering ? share : 0);
}

}  // namespace

double seen_chance(SeenLamp seen, double light, bool flickers) { return seen_chance(seen, row_of(light), flickers); }

// Asked of every lamp in every fault: there are few values.
double log_seen_chance(SeenLamp seen, double light, bool flickers) {
  using Logs = std::array<std::array<std::array<double, seen_count>, row_count>, 2>;
  static const Logs logs = [] {
    Logs all{};
    for (const bool flicker : {false, true}) {
      for (std::size_t row = 0; row < row_count; ++row) {
        for (std::size_t k = 0; k < seen_count; ++k) {
          all[flicker ? 1 : 0][row][k] = std::log(seen_chance(static_cast<SeenLamp>(k), row, flicker));
        }
      }
    }
    return all;
  }();
  return logs[flickers ? 1 : 0][row_of(light)][static_cast<std::size_t>(seen)];
}

}  // namespace duskwire::diagnosis
