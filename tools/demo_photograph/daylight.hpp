// SPDX-License-Identifier: Apache-2.0
// How the modelled garden looks by day: the sky, the colour of each material at a place, and the light that arrives.
// Values are relative: 1 is about a white surface in full sun.
#pragma once

#include <memory>

#include "geometry/ray_caster.hpp"
#include "light/camera.hpp"
#include "model.hpp"
#include "noise.hpp"

namespace duskwire::demo {

// To the sun, of unit length.
[[nodiscard]] Vec3 way_to_sun();
[[nodiscard]] Colour sky(Vec3 way);
// What a matt surface throws back at a place; `distance_m` from the camera, so that far texture may fade.
[[nodiscard]] Colour surface_colour(const Thing& thing, Point3 at, Vec3 normal, double distance_m);

class Daylight {
 public:
  explicit Daylight(const Model& model);

  // What the camera sees along a way; the dice choose one path.
  [[nodiscard]] Colour seen(Point3 from, Vec3 way, Dice& dice) const;
  // The thing that is met first; things.size() where it is the sky.
  [[nodiscard]] std::uint32_t thing_seen(Point3 from, Vec3 way) const;

 private:
  struct Met {
    Point3 at;
    Vec3 normal;  // towards where the ray came from
    const Thing* thing = nullptr;
    double distance_m = 0;
  };
  [[nodiscard]] bool meet(Point3 from, Vec3 way, Met& met) const;
  [[nodiscard]] bool is_free(Point3 from, Vec3 way) const;
  [[nodiscard]] Colour sunlight(const Met& met, Dice& dice) const;
  [[nodiscard]] Colour skylight(const Met& met, Dice& dice) const;
  [[nodiscard]] Colour mirrored(const Met& met, Vec3 way, Dice& dice) const;

  const Model& model_;
  std::unique_ptr<geometry::RayCaster> caster_;
};

}  // namespace duskwire::demo
