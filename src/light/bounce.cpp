// SPDX-License-Identifier: Apache-2.0
#include "light/bounce.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace duskwire::light {
namespace {

using geometry::Point3;
using geometry::Ray;
using geometry::Vec3;

int pieces_of(double length_m, double patch_m) { return std::max(1, static_cast<int>(std::ceil(length_m / patch_m))); }

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
    std::vector<Receiver> places;
    for (int i = 0; i < along; ++i) {
      for (int j = 0; j < across; ++j) {
        places.push_back(
            {surface.corner + (i + 0.5) / along * surface.side + (j + 0.5) / across * surface.other, unit(square)});
      }
    }
    std::vector<float> lx(places.size());
    scene.illuminance_lx(places, lx, care);
    for (std::size_t i = 0; i < places.size(); ++i) {
      if (lx[i] <= 0) continue;
      patches_.push_back({places[i], length(square) / (along * across), surface.reflectance * double{lx[i]}});
    }
  }
}

double Bounce::sent_lm() const {
  double sum_lm = 0;
  for (const Patch& patch : patches_) sum_lm += patch.area_m2 * patch.exitance_lm_m2;
  return sum_lm;
}

void Bounce::add_lx(std::span<const Receiver> receivers, std::span<float> out_lx, const Care& care) const {
  std::vector<Ray> rays;
  std::vector<float> part_lx;
  std::vector<std::uint8_t> blocked;
  for (std::size_t i = 0; i < receivers.size(); ++i) {
    rays.clear();
    part_lx.clear();
    const Receiver& receiver = receivers[i];
    const Point3 lifted = receiver.position + care.lift_m * receiver.normal;
    for (const Patch& patch : patches_) {
      const Vec3 way = patch.place.position - receiver.position;
      const double square_m2 = dot(way, way);
      const double towards = dot(way, receiver.normal) * -dot(way, patch.place.normal);
      if (dot(way, receiver.normal) <= 0 || towards <= 0) continue;
      // A matt disk of area A on axis at r: E = M A / (pi r^2 + A) (values.md 5.3); cosines for places off axis.
      const double lx =
          patch.exitance_lm_m2 * patch.area_m2 * (towards / square_m2) / (std::numbers::pi * square_m2 + patch.area_m2);
      if (lx <= 0 || lx < care.faint_lx) continue;
      rays.push_back(between(lifted, patch.place.position + care.lift_m * patch.place.normal));
      part_lx.push_back(static_cast<float>(lx));
    }
    blocked.assign(rays.size(), 0);
    scene_->caster().occluded(rays, blocked);
    for (std::size_t k = 0; k < rays.size(); ++k) out_lx[i] += blocked[k] != 0 ? 0 : part_lx[k];
  }
}

}  // namespace duskwire::light
