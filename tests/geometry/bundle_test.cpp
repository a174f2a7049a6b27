// SPDX-License-Identifier: Apache-2.0
// What is said of a whole bundle of ways holds for each of them: asked ray by ray, of the same caster.
#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <random>
#include <vector>

#include "geometry/ray_caster.hpp"

namespace duskwire::geometry {
namespace {

using Random = std::mt19937;
using Place = std::array<float, 3>;

float between(Random& random, float low, float high) {
  return low + (high - low) * static_cast<float>(random() % 1000003U) / 1000002.0F;
}

Place place(Random& random, float size_m) {
  return {between(random, -size_m, size_m), between(random, -size_m, size_m), between(random, -size_m, size_m)};
}

void add_triangle(TriangleMesh& mesh, Place a, Place b, Place c) {
  const auto first = static_cast<std::uint32_t>(mesh.points_m.size());
  mesh.points_m.insert(mesh.points_m.end(), {a, b, c});
  mesh.triangles.push_back({first, first + 1, first + 2});
  mesh.thing.push_back(0);
}

TriangleMesh scattered(Random& random, int triangles, float size_m, float each_m) {
  TriangleMesh mesh;
  for (int i = 0; i < triangles; ++i) {
    const Place a = place(random, size_m);
    const auto near = [&]() -> Place {
      const Place step = place(random, each_m);
      return {a[0] + step[0], a[1] + step[1], a[2] + step[2]};
    };
    add_triangle(mesh, a, near(), near());
  }
  return mesh;
}

Ray ray_to(const Place& origin, const Place& end) {
  return {origin, {end[0] - origin[0], end[1] - origin[1], end[2] - origin[2]}, 0, 1};
}

// How many of so many ways to places of the ball, its rim among them, are blocked.
int blocked_ways(const RayCaster& caster, const Bundle& bundle, Random& random, int count) {
  std::vector<Ray> rays;
  while (static_cast<int>(rays.size()) < count) {
    const Place step = place(random, 1);
    const float length = std::sqrt(step[0] * step[0] + step[1] * step[1] + step[2] * step[2]);
    if (!(length > 0.1F)) continue;
    const float share = bundle.radius_m * (rays.size() % 2 == 0 ? 1 : between(random, 0, 1)) / length;
    Place end = bundle.middle_m;
    for (std::size_t axis = 0; axis < 3; ++axis) end[axis] += share * step[axis];
    rays.push_back(ray_to(bundle.origin_m, end));
  }
  std::vector<std::uint8_t> blocked(rays.size());
  caster.occluded(rays, blocked);
  int found = 0;
  for (const std::uint8_t one : blocked) found += one;
  return found;
}

TEST(Bundle, WhatIsSurelyFreeBlocksNoneOfItsWaysAndMostThatIsFreeIsSaidToBe) {
  Random random(7);
  int free = 0;
  int said = 0;
  for (int scene = 0; scene < 40; ++scene) {
    const auto caster = own_ray_caster(scattered(random, scene % 2 == 0 ? 12 : 300, 10, scene % 4 < 2 ? 0.5F : 3));
    for (int i = 0; i < 200; ++i) {
      const Bundle bundle{place(random, 12), place(random, 12), between(random, 0.01F, 0.8F), {}, 0};
      const bool is_said = caster->surely_free(bundle);
      const int blocked = blocked_ways(*caster, bundle, random, 128);
      if (is_said) {
        EXPECT_EQ(blocked, 0) << "scene " << scene << ", bundle " << i;
      }
      free += blocked == 0 ? 1 : 0;
      said += is_said ? 1 : 0;
    }
  }
  EXPECT_GT(free, 1000);
  EXPECT_GT(said, free * 9 / 10);
  EXPECT_LE(said, free);
}

// A wall in the plane y = 0 of two triangles, a lamp before it, a ball around places on it.
TEST(Bundle, TheSurfaceThatWaysEndBeforeDoesNotCount) {
  TriangleMesh mesh;
  add_triangle(mesh, {-5, 0, 0}, {5, 0, 0}, {5, 0, 3});
  add_triangle(mesh, {-5, 0, 0}, {5, 0, 3}, {-5, 0, 3});
  const auto caster = own_ray_caster(mesh);
  Bundle bundle{{0, -2, 0.1F}, {1, 0, 2}, 0.3F, {}, 0};
  EXPECT_FALSE(caster->surely_free(bundle));
  bundle.normal = {0, -1, 0};
  bundle.behind_m = 0.001F;
  EXPECT_TRUE(caster->surely_free(bundle));
  bundle.origin_m = {0, 2, 0.1F};
  bundle.normal = {};
  EXPECT_FALSE(caster->surely_free(bundle));
}

TEST(Bundle, ALampOnASurfaceIsNotShadedByIt) {
  TriangleMesh mesh;
  add_triangle(mesh, {-50, -50, 0}, {50, -50, 0}, {0, 50, 0});
  const auto caster = own_ray_caster(mesh);
  EXPECT_TRUE(caster->surely_free({{0, 0, 0.1F}, {1, 2, 2}, 0.3F, {}, 0}));
  EXPECT_FALSE(caster->surely_free({{0, 0, 0.1F}, {1, 2, -2}, 0.3F, {}, 0}));
}

TEST(Bundle, NothingStandsInAnEmptyGarden) {
  EXPECT_TRUE(own_ray_caster({})->surely_free({{0, 0, 0}, {1, 1, 1}, 0.5F, {}, 0}));
}

}  // namespace
}  // namespace duskwire::geometry
