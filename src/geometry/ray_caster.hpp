// SPDX-License-Identifier: Apache-2.0
// Asks of triangles: is the way free, and what is met first. Two casters answer alike: one on Embree (native builds
// that have it), one on a tree of boxes of our own (everywhere, the page too). Both are immutable once built and may
// be asked from many threads.
#pragma once

#include <array>
#include <cstdint>
#include <memory>
#include <optional>
#include <span>

#include "geometry/triangle_mesh.hpp"

namespace duskwire::geometry {

// The piece origin + t * way with t in (from, to); `way` need not be of unit length.
struct Ray {
  std::array<float, 3> origin_m{};
  std::array<float, 3> way{};
  float from = 0;
  float to = 1;
};

struct RayHit {
  std::uint32_t triangle = 0;
  float t = 0;
};

// Straight ways from one place to every place of a ball. All of them end before the plane normal * p = behind_m, so
// that what lies wholly at or behind it meets none; a normal of zeros: no such plane is known.
struct Bundle {
  std::array<float, 3> origin_m{};
  std::array<float, 3> middle_m{};
  float radius_m = 0;
  std::array<float, 3> normal{};
  float behind_m = 0;
};

class RayCaster {
 public:
  virtual ~RayCaster() = default;

  // blocked[i] becomes 1 where ray i meets a triangle, else 0. Quick where neighbours in the span are close in space.
  virtual void occluded(std::span<const Ray> rays, std::span<std::uint8_t> blocked) const = 0;

  [[nodiscard]] virtual std::optional<RayHit> nearest(const Ray& ray) const = 0;

  // True only where no triangle can meet any way of the bundle: its rays need not be asked one by one. False says
  // nothing; a caster that is quick enough at single rays may always say so.
  [[nodiscard]] virtual bool surely_free(const Bundle& /*bundle*/) const { return false; }
};

// Triangles without area and with numbers that are not finite are left out.
[[nodiscard]] std::unique_ptr<RayCaster> own_ray_caster(const TriangleMesh& mesh);

// On Embree where the build has it (DUSKWIRE_EMBREE), else our own.
[[nodiscard]] std::unique_ptr<RayCaster> quickest_ray_caster(const TriangleMesh& mesh);

}  // namespace duskwire::geometry
