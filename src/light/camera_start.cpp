// SPDX-License-Identifier: Apache-2.0
// Homography of a plane, focal length from its two vanishing directions, pose from both: R. Hartley, A. Zisserman,
// "Multiple View Geometry", 2nd ed., 4.1, 7.1 and 8.8 (from memory).
#include "light/camera_start.hpp"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <iterator>

namespace duskwire::light {
namespace {

using Eigen::Matrix3d;
using Eigen::MatrixXd;
using Eigen::Vector2d;
using Eigen::Vector3d;
using geometry::Point3;
using geometry::Vec3;

// Lenses to begin with where nothing tells: wide to long, as shares of the picture's diagonal.
constexpr double usual_lenses[] = {0.5, 0.8, 1.4, 3.0};
// Places further from a plane than this share of their spread do not lie on it.
constexpr double flat_share = 1e-3;

Vector3d eigen(Point3 p) { return {p.x_m, p.y_m, p.z_m}; }
Vec3 vec3(const Vector3d& v) { return {v.x(), v.y(), v.z()}; }

// A plane with a frame of its own: origin, and three unit ways as rows, the third square to it.
struct Plane {
  Vector3d origin;
  Matrix3d ways;
  bool is_flat = false;
  bool is_line = false;
};

Plane best_plane(std::span<const KnownPoint> points) {
  Plane plane;
  plane.origin.setZero();
  for (const KnownPoint& point : points) plane.origin += eigen(point.site) / static_cast<double>(points.size());
  MatrixXd offsets(3, points.size());
  for (std::size_t i = 0; i < points.size(); ++i) {
    offsets.col(static_cast<Eigen::Index>(i)) = eigen(points[i].site) - plane.origin;
  }
  const Eigen::JacobiSVD<MatrixXd> svd(offsets, Eigen::ComputeFullU);
  plane.ways = svd.matrixU().transpose();
  if (plane.ways.determinant() < 0) plane.ways.row(2) *= -1;
  const auto& spread = svd.singularValues();
  plane.is_line = spread(1) <= flat_share * spread(0);
  plane.is_flat = spread.size() < 3 || spread(2) <= flat_share * spread(0);
  return plane;
}

// Places on the picture from its principal point, in diagonals.
struct Scaled {
  double diagonal_px = 1;
  std::vector<Vector2d> places;
};

Scaled scaled(const Camera& frame, std::span<const KnownPoint> points) {
  Scaled out{std::hypot(frame.width_px, frame.height_px), {}};
  for (const KnownPoint& point : points) {
    out.places.emplace_back((point.pixel.x_px - frame.principal.x_px) / out.diagonal_px,
                            (point.pixel.y_px - frame.principal.y_px) / out.diagonal_px);
  }
  return out;
}

Matrix3d homography(const Plane& plane, std::span<const KnownPoint> points, const Scaled& seen) {
  MatrixXd rows = MatrixXd::Zero(static_cast<Eigen::Index>(2 * points.size()), 9);
  double spread = 0;
  for (const KnownPoint& point : points) spread = std::max(spread, (eigen(point.site) - plane.origin).norm());
  for (std::size_t i = 0; i < points.size(); ++i) {
    const Vector3d on_plane = plane.ways * (eigen(points[i].site) - plane.origin) / spread;
    const Vector3d p(on_plane.x(), on_plane.y(), 1);
    const auto row = static_cast<Eigen::Index>(2 * i);
    rows.block<1, 3>(row, 0) = p.transpose();
    rows.block<1, 3>(row, 6) = -seen.places[i].x() * p.transpose();
    rows.block<1, 3>(row + 1, 3) = p.transpose();
    rows.block<1, 3>(row + 1, 6) = -seen.places[i].y() * p.transpose();
  }
  const Eigen::JacobiSVD<MatrixXd> svd(rows, Eigen::ComputeFullV);
  const Eigen::VectorXd h = svd.matrixV().col(8);
  Matrix3d out;
  out << h(0) / spread, h(1) / spread, h(2), h(3) / spread, h(4) / spread, h(5), h(6) / spread, h(7) / spread, h(8);
  return out;
}

// The two ways in the plane are square and of one length: two equations for 1/f^2, in diagonals; 0 where they give
// none.
double focal_of(const Matrix3d& h) {
  const Vector2d p(h(0, 0) * h(0, 1) + h(1, 0) * h(1, 1),
                   h.col(0).head<2>().squaredNorm() - h.col(1).head<2>().squaredNorm());
  const Vector2d q(h(2, 0) * h(2, 1), h(2, 0) * h(2, 0) - h(2, 1) * h(2, 1));
  const double inverse_square = -p.dot(q) / p.squaredNorm();
  return inverse_square > 0 ? 1 / std::sqrt(inverse_square) : 0;
}

Camera camera_of(const Camera& frame, double focal_px, const Matrix3d& camera_from_site, const Vector3d& position) {
  Camera camera = frame;
  camera.focal_px = focal_px;
  camera.position = {position.x(), position.y(), position.z()};
  for (Eigen::Index i = 0; i < 3; ++i) {
    camera.axes[static_cast<std::size_t>(i)] = vec3(camera_from_site.row(i).transpose());
  }
  return camera;
}

// Both poses of a plane that fit a weak perspective alike: as found, and mirrored along the line of sight.
void add_plane_poses(const Camera& frame, const Plane& plane, const Matrix3d& h, double focal, double diagonal_px,
                     std::vector<Camera>& out) {
  Matrix3d m = h;
  m.topRows<2>() /= focal;
  const double size = 2 / (m.col(0).norm() + m.col(1).norm());
  m *= m(2, 2) < 0 ? -size : size;
  const Vector3d to_origin = m.col(2);
  const Eigen::JacobiSVD<MatrixXd> svd(m.leftCols<2>(), Eigen::ComputeThinU | Eigen::ComputeThinV);
  Eigen::Matrix<double, 3, 2> ways = svd.matrixU() * svd.matrixV().transpose();
  const Vector3d sight = to_origin.normalized();
  for (int mirrored = 0; mirrored < 2; ++mirrored) {
    Matrix3d camera_from_plane;
    camera_from_plane << ways, ways.col(0).cross(ways.col(1));
    const Matrix3d camera_from_site = camera_from_plane * plane.ways;
    out.push_back(camera_of(frame, focal * diagonal_px, camera_from_site,
                            plane.origin - camera_from_site.transpose() * to_origin));
    ways -= 2 * sight * (sight.transpose() * ways);
  }
}

// Six places and more that are not on a plane: the direct linear transformation (Hartley, Zisserman, 7.1).
void add_direct(const Camera& frame, std::span<const KnownPoint> points, const Scaled& seen, std::vector<Camera>& out) {
  const Plane plane = best_plane(points);
  MatrixXd rows = MatrixXd::Zero(static_cast<Eigen::Index>(2 * points.size()), 12);
  for (std::size_t i = 0; i < points.size(); ++i) {
    Eigen::RowVector4d p;
    p << (eigen(points[i].site) - plane.origin).transpose(), 1;
    const auto row = static_cast<Eigen::Index>(2 * i);
    rows.block<1, 4>(row, 0) = p;
    rows.block<1, 4>(row, 8) = -seen.places[i].x() * p;
    rows.block<1, 4>(row + 1, 4) = p;
    rows.block<1, 4>(row + 1, 8) = -seen.places[i].y() * p;
  }
  const Eigen::JacobiSVD<MatrixXd> svd(rows, Eigen::ComputeFullV);
  const Eigen::VectorXd v = svd.matrixV().col(11);
  Eigen::Matrix<double, 3, 4> projection;
  projection << v.segment<4>(0).transpose(), v.segment<4>(4).transpose(), v.segment<4>(8).transpose();
  Matrix3d m = projection.leftCols<3>();
  const double size = m.row(2).norm();
  if (!(size > 0) || !(std::abs(m.determinant()) > 0)) return;
  const Vector3d position = -m.inverse() * projection.col(3);
  if (m.determinant() < 0) m = -m;
  const Vector3d ahead = m.row(2).transpose() / size;
  Vector3d right = m.row(0).transpose() - m.row(0).dot(ahead) * ahead;
  const Vector3d down = m.row(1).transpose() - m.row(1).dot(ahead) * ahead;
  const double focal =
      frame.focal_px > 0 ? frame.focal_px : seen.diagonal_px * (right.norm() + down.norm()) / (2 * size);
  right.normalize();
  Matrix3d camera_from_site;
  camera_from_site << right.transpose(), ahead.cross(right).transpose(), ahead.transpose();
  out.push_back(camera_of(frame, focal, camera_from_site, plane.origin + position));
}

// Any places that are not on a plane, as if seen from very far (scaled orthography).
void add_distant(const Camera& frame, std::span<const KnownPoint> points, const Scaled& seen, double focal,
                 std::vector<Camera>& out) {
  const Plane plane = best_plane(points);
  MatrixXd a(static_cast<Eigen::Index>(points.size()), 4);
  MatrixXd b(static_cast<Eigen::Index>(points.size()), 2);
  for (std::size_t i = 0; i < points.size(); ++i) {
    const auto row = static_cast<Eigen::Index>(i);
    a.row(row) << (eigen(points[i].site) - plane.origin).transpose(), 1;
    b.row(row) = seen.places[i].transpose();
  }
  const MatrixXd fit = (a.transpose() * a).ldlt().solve(a.transpose() * b);
  Vector3d right = fit.block<3, 1>(0, 0);
  Vector3d down = fit.block<3, 1>(0, 1);
  const double scale = (right.norm() + down.norm()) / 2;
  if (!(scale > 0)) return;
  right.normalize();
  down = (down - down.dot(right) * right).normalized();
  Matrix3d camera_from_site;
  camera_from_site << right.transpose(), down.transpose(), right.cross(down).transpose();
  const double depth_m = focal / scale;
  const Vector3d to_origin(fit(3, 0) * depth_m / focal, fit(3, 1) * depth_m / focal, depth_m);
  out.push_back(camera_of(frame, focal * seen.diagonal_px, camera_from_site,
                          plane.origin - camera_from_site.transpose() * to_origin));
}

}  // namespace

std::vector<Camera> first_cameras(const Camera& frame, std::span<const KnownPoint> all, std::size_t plane_count) {
  std::vector<Camera> out;
  std::vector<KnownPoint> points;
  std::copy_if(all.begin(), all.end(), std::back_inserter(points),
               [](const KnownPoint& point) { return point.along == Vec3{}; });
  const Plane whole = best_plane(points);
  if (whole.is_line) return out;
  const std::span<const KnownPoint> on_plane(points.data(), plane_count > 0 ? plane_count : points.size());
  const Plane plane = best_plane(on_plane);
  const Scaled seen = scaled(frame, points);
  std::vector<double> lenses;
  lenses.reserve(1 + std::size(usual_lenses));
  if (frame.focal_px > 0) lenses.push_back(frame.focal_px / seen.diagonal_px);
  if (plane.is_flat && !plane.is_line && on_plane.size() >= 4) {
    const Matrix3d h = homography(plane, on_plane, seen);
    if (frame.focal_px <= 0) {
      if (const double found = focal_of(h); found > 0.1 && found < 30) lenses.push_back(found);
      for (const double lens : usual_lenses) lenses.push_back(lens);
    }
    for (const double lens : lenses) add_plane_poses(frame, plane, h, lens, seen.diagonal_px, out);
  }
  if (!whole.is_flat) {
    if (points.size() >= 6) add_direct(frame, points, seen, out);
    if (lenses.empty()) lenses.assign(std::begin(usual_lenses), std::end(usual_lenses));
    for (const double lens : lenses) add_distant(frame, points, seen, lens, out);
  }
  return out;
}

}  // namespace duskwire::light
