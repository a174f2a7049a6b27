// SPDX-License-Identifier: Apache-2.0
// K. Madsen, H. Nielsen, O. Tingleff, "Methods for non-linear least squares problems", 2004, algorithm 3.16: damping by
// the gain ratio (from memory).
#include "light/camera_fit.hpp"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>

namespace duskwire::light {
namespace {

using Eigen::Matrix3d;
using Eigen::Vector3d;
// The camera's unknowns, then the width of the adjoining wall and the height of both.
constexpr std::size_t all_count = unknown_count + 2;
constexpr auto width_at = static_cast<Eigen::Index>(unknown_count);
constexpr auto height_at = width_at + 1;
using Vector = Eigen::Matrix<double, all_count, 1>;
using Matrix = Eigen::Matrix<double, all_count, all_count>;

constexpr int most_steps = 200;
constexpr double small_step = 1e-12;

// The normal equations of one camera: what the sum of squares is, where it falls, how it bends.
struct Normal {
  double cost = 0;
  Matrix bend = Matrix::Zero();
  Vector fall = Vector::Zero();
};

std::optional<Normal> normal_of(const Camera& camera, const WallSizes& sizes, std::span<const KnownPoint> points,
                                double click_error_px, const FocalPrior& prior) {
  Matrix3d axes;
  for (std::size_t i = 0; i < 3; ++i) {
    axes.row(static_cast<Eigen::Index>(i)) << camera.axes[i].x, camera.axes[i].y, camera.axes[i].z;
  }
  Normal out;
  for (const KnownPoint& point : points) {
    const geometry::Vec3 offset = site_of(point, sizes) - camera.position;
    const Vector3d seen = axes * Vector3d(offset.x, offset.y, offset.z);
    if (!(seen.z() > 1e-9)) return std::nullopt;
    const double scale = camera.focal_px / seen.z();
    const Eigen::Vector2d place(scale * seen.x(), scale * seen.y());
    const Eigen::Vector2d miss =
        (place - Eigen::Vector2d(point.pixel.x_px - camera.principal.x_px, point.pixel.y_px - camera.principal.y_px)) /
        click_error_px;
    Eigen::Matrix<double, 2, 3> by_seen;
    by_seen << scale, 0, -place.x() / seen.z(), 0, scale, -place.y() / seen.z();
    Matrix3d seen_by_turn;  // a small turn w moves a seen place by w x seen
    seen_by_turn << 0, seen.z(), -seen.y(), -seen.z(), 0, seen.x(), seen.y(), -seen.x(), 0;
    const Vector3d along(point.along.x, point.along.y, point.along.z);
    const Vector3d rise(point.rise.x, point.rise.y, point.rise.z);
    Eigen::Matrix<double, 2, all_count> slope;
    slope << by_seen * seen_by_turn, -by_seen * axes, place, by_seen * (axes * along), by_seen * (axes * rise);
    slope /= click_error_px;
    out.cost += miss.squaredNorm();
    out.bend += slope.transpose() * slope;
    out.fall -= slope.transpose() * miss;
  }
  const double miss = std::log(camera.focal_px / prior.focal_px) / prior.error_share;
  out.cost += miss * miss;
  out.bend(6, 6) += 1 / (prior.error_share * prior.error_share);
  out.fall(6) -= miss / prior.error_share;
  // A size that no place hangs on is held where it is.
  for (const Eigen::Index size : {width_at, height_at}) {
    if (out.bend(size, size) == 0) out.bend(size, size) = 1;
  }
  return out;
}

Unknowns unknowns_of(const Vector& step) {
  Unknowns out{};
  std::copy(step.data(), step.data() + unknown_count, out.begin());
  return out;
}

}  // namespace

Camera stepped(const Camera& camera, const Unknowns& step) {
  Camera out = camera;
  const Vector3d turn(step[0], step[1], step[2]);
  const double angle_rad = turn.norm();
  if (angle_rad > 0) {
    const Matrix3d rotation = Eigen::AngleAxisd(angle_rad, turn / angle_rad).toRotationMatrix();
    for (std::size_t i = 0; i < 3; ++i) {
      const auto row = rotation.row(static_cast<Eigen::Index>(i));
      out.axes[i] = row(0) * camera.axes[0] + row(1) * camera.axes[1] + row(2) * camera.axes[2];
    }
  }
  out.position = camera.position + geometry::Vec3{step[3], step[4], step[5]};
  out.focal_px = camera.focal_px * std::exp(step[6]);
  return out;
}

std::optional<CameraFit> fit_camera(const Camera& start, const WallSizes& sizes, std::span<const KnownPoint> points,
                                    double click_error_px, const FocalPrior& prior) {
  CameraFit fit;
  fit.camera = start;
  fit.sizes = sizes;
  std::optional<Normal> normal = normal_of(start, sizes, points, click_error_px, prior);
  if (!normal) return std::nullopt;
  double damping = 1e-3;
  double grow = 2;
  for (int i = 0; i < most_steps && damping < 1e12; ++i) {
    Matrix damped = normal->bend;
    damped.diagonal() *= 1 + damping;
    const Vector step = damped.ldlt().solve(normal->fall);
    if (!step.allFinite()) return std::nullopt;
    if (step.norm() < small_step) break;
    Vector bounded = step;
    bounded(6) = std::clamp(step(6), -1.0, 1.0);  // a focal length changes threefold at most
    const Camera next = stepped(fit.camera, unknowns_of(bounded));
    const WallSizes next_sizes{fit.sizes.width_m + bounded(width_at), fit.sizes.height_m + bounded(height_at)};
    const std::optional<Normal> tried = normal_of(next, next_sizes, points, click_error_px, prior);
    const double expected = bounded.dot(2 * normal->fall - normal->bend * bounded);
    const double gain = tried ? (normal->cost - tried->cost) / expected : -1;
    if (gain > 0 && expected > 0) {
      fit.camera = next;
      fit.sizes = next_sizes;
      normal = tried;
      damping = std::max(1e-12, damping * std::max(1.0 / 3, 1 - std::pow(2 * gain - 1, 3)));
      grow = 2;
    } else {
      damping *= grow;
      grow *= 2;
    }
  }
  fit.cost = normal->cost;
  const Eigen::LDLT<Matrix> bend(normal->bend);
  const Matrix covariance = bend.solve(Matrix::Identity());
  if (bend.info() != Eigen::Success || !covariance.allFinite() || covariance.diagonal().minCoeff() <= 0) {
    return std::nullopt;
  }
  for (std::size_t i = 0; i < unknown_count; ++i)
    fit.covariance[i] = unknowns_of(covariance.col(static_cast<Eigen::Index>(i)));
  fit.width_variance_m2 = covariance(width_at, width_at);
  fit.height_variance_m2 = covariance(height_at, height_at);
  return fit;
}

}  // namespace duskwire::light
