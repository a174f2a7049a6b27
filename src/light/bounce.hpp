// SPDX-License-Identifier: Apache-2.0
// Light that arrives after one bounce on matt surfaces: a light wall lights the path before it. Surfaces are parted
// into patches, each a matt source of the light that its middle gets straight from the lamps. Seen from near, a patch
// is parted further.
#pragma once

#include <span>
#include <vector>

#include "light/illuminance.hpp"

namespace duskwire::light {

// A parallelogram that sends back on the side towards which side x other points.
struct MattSurface {
  geometry::Point3 corner;
  geometry::Vec3 side;
  geometry::Vec3 other;
  double reflectance = 0.2;
};

inline constexpr float least_lit_lx = 0.02F;

class Bounce {
 public:
  // `patch_m`: no patch is longer. Patches that get less than least_lit_lx send nothing. `scene` is kept by reference.
  Bounce(const LitScene& scene, std::span<const MattSurface> surfaces, double patch_m, const Care& care = {});

  // out[i] += what bounced once, in lx, in the shadow of what is solid and in the shade of crowns. Patches whose part
  // at a place is below care.faint_lx are not followed there.
  void add_lx(std::span<const Receiver> receivers, std::span<float> out_lx, const Care& care = {}) const;

  [[nodiscard]] double sent_lm() const;
  [[nodiscard]] std::size_t patch_count() const { return patches_.size(); }

 private:
  struct Patch {
    geometry::Point3 middle;
    geometry::Vec3 side;
    geometry::Vec3 other;
    geometry::Vec3 normal;
    double area_m2 = 0;
    double longest_m = 0;
    double exitance_lm_m2 = 0;
  };
  class Gathering;

  const LitScene* scene_;
  std::vector<Patch> patches_;  // those that send anything
};

}  // namespace duskwire::light
