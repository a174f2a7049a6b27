// SPDX-License-Identifier: Apache-2.0
#include "light/bounce.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "light/crown_shade.hpp"

namespace duskwire::light {
namespace {

using geometry::Point3;
using geometry::Ray;
using geometry::Vec3;

// A patch is seen from near where the way to its middle is shorter than so many of its longer sides; then its quarters
// are taken. With this the closed forms of two plates are met within 2.5 % from patches half as long as they are
// (tests/light/bounce_test.cpp).
constexpr double near_sides = 3;
constexpr int most_partings = 4;

int pieces_of(double length_m, double patch_m) {  // Rounding of a whole number of patches is no further one.
  return std::max(1, static_cast<int>(std::ceil(length_m / patch_m - 1e-6)));
}

std::array<float, 3> single(Vec3 v) {
  return {static_cast<float>(v.x), static_cast<float>(v.y), static_cast<float>(v.z)};
}

// From one lifted place to another.
Ray between(Point3 from, Point3 to) { return {single(from - Point3{}), single(to - from), 0, 1}; }

}  // namespace

Bounce::Bounce(const LitScene& scene, std::span<const MattSurface> surfaces, double patch_m, const Care& care)
    : scene_(&scene) {
  for (const MattSurface& surface : surfaces) {
    const int along = pieces_of(length(surface.side), patch_m);
    const int across = pieces_of(length(surface.other), patch_m);
    const Vec3 square = cross(surface.side, surface.other);
    if (!(length(square) > 0)) continue;
    Patch patch;
    patch.side = (1.0 / along) * surface.side;
    patch.other = (1.0 / across) * surface.other;
    patch.normal = unit(square);
    patch.area_m2 = length(square) / (along * across);
    patch.longest_m = std::max(length(patch.side), length(patch.other));
    std::vector<Receiver> places;
    for (int i = 0; i < along; ++i) {
      for (int j = 0; j < across; ++j) {
        places.push_back({surface.corner + (i + 0.5) * patch.side + (j + 0.5) * patch.other, patch.normal});
      }
    }
    std::vector<float> lx(places.size());
    scene.illuminance_lx(places, lx, care);
    for (std::size_t i = 0; i < places.size(); ++i) {
      if (lx[i] < least_lit_lx) continue;
      patch.middle = places[i].position;
      patch.exitance_lm_m2 = surface.reflectance * double{lx[i]};
      patches_.push_back(patch);
    }
  }
}

double Bounce::sent_lm() const {
  double sum_lm = 0;
  for (const Patch& patch : patches_) sum_lm += patch.area_m2 * patch.exitance_lm_m2;
  return sum_lm;
}

// What one place gets: first without anything between, then with.
class Bounce::Gathering {
 public:
  Gathering(const LitScene& scene, const Care& care) : scene_(scene), care_(care) {}

  double gather_lx(const Receiver& receiver, std::span<const Patch> patches) {
    rays_.clear();
    part_lx_.clear();
    receiver_ = &receiver;
    lifted_ = receiver.position + care_.lift_m * receiver.normal;
    for (const Patch& patch : patches) add(patch, 0);
    blocked_.assign(rays_.size(), 0);
    scene_.caster().occluded(rays_, blocked_);
    double sum_lx = 0;
    for (std::size_t k = 0; k < rays_.size(); ++k) {
      if (blocked_[k] == 0) sum_lx += double{part_lx_[k]};
    }
    return sum_lx;
  }

 private:
  void add(const Patch& patch, int partings) {
    const Vec3 way = patch.middle - receiver_->position;
    const double square_m2 = dot(way, way);
    const double near_m = near_sides * patch.longest_m;
    if (square_m2 < near_m * near_m && partings < most_partings) {
      add_quarters(patch, partings);
      return;
    }
    const double here = dot(way, receiver_->normal);
    const double there = -dot(way, patch.normal);
    if (here <= 0 || there <= 0) return;
    // A matt disk of area A on axis at r: E = M A / (pi r^2 + A) (values.md 5.3); cosines for places off axis.
    const double lx = patch.exitance_lm_m2 * patch.area_m2 * (here * there / square_m2) /
                      (std::numbers::pi * square_m2 + patch.area_m2);
    if (!(lx > 0) || lx < care_.faint_lx) return;
    const Point3 from = patch.middle + care_.lift_m * patch.normal;
    double kept = 1;
    for (const Crown& crown : scene_.scene().crowns) kept *= crown_share(crown, from, lifted_);
    rays_.push_back(between(lifted_, from));
    part_lx_.push_back(static_cast<float>(kept * lx));
  }

  void add_quarters(const Patch& patch, int partings) {
    // Nothing of it can be before the receiver, or the receiver before it.
    const Vec3 way = patch.middle - receiver_->position;
    if (dot(way, receiver_->normal) <= -patch.longest_m || -dot(way, patch.normal) <= 0) return;
    Patch quarter = patch;
    quarter.side = 0.5 * patch.side;
    quarter.other = 0.5 * patch.other;
    quarter.area_m2 = patch.area_m2 / 4;
    quarter.longest_m = patch.longest_m / 2;
    for (const double i : {-0.5, 0.5}) {
      for (const double j : {-0.5, 0.5}) {
        quarter.middle = patch.middle + i * quarter.side + j * quarter.other;
        add(quarter, partings + 1);
      }
    }
  }

  const LitScene& scene_;
  const Care& care_;
  const Receiver* receiver_ = nullptr;
  Point3 lifted_;
  std::vector<Ray> rays_;
  std::vector<float> part_lx_;
  std::vector<std::uint8_t> blocked_;
};

void Bounce::add_lx(std::span<const Receiver> receivers, std::span<float> out_lx, const Care& care) const {
  Gathering gathering(*scene_, care);
  for (std::size_t i = 0; i < receivers.size(); ++i) {
    out_lx[i] += static_cast<float>(gathering.gather_lx(receivers[i], patches_));
  }
}

}  // namespace duskwire::light
