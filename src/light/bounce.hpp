// SPDX-License-Identifier: Apache-2.0
// Light that arrives after one bounce on matt surfaces: a light wall lights the path before it. Surfaces are parted
// into patches, each a small matt source of the light that it gets straight from the lamps.
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

class Bounce {
 public:
  // `patch_m`: no patch is longer. `scene` is kept by reference.
  Bounce(const LitScene& scene, std::span<const MattSurface> surfaces, double patch_m, const Care& care = {});

  // out[i] += what bounced once, in lx. Patches whose part at a place is below care.faint_lx are not followed there.
  void add_lx(std::span<const Receiver> receivers, std::span<float> out_lx, const Care& care = {}) const;

  [[nodiscard]] double sent_lm() const;

 private:
  struct Patch {
    Receiver place;
    double area_m2 = 0;
    double exitance_lm_m2 = 0;
  };

  const LitScene* scene_;
  std::vector<Patch> patches_;  // those that send anything
};

}  // namespace duskwire::light
