// SPDX-License-Identifier: Apache-2.0
#include "daylight.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace duskwire::demo {
namespace {

constexpr Colour sun_colour{1.05, 0.94, 0.76};
constexpr double sun_strength = 1.18;
// Half the sun's disc and the haze round it: edges of shadows get soft.
constexpr double sun_spread = 0.008;
constexpr double leaf_transmitted = 0.75;
constexpr double start_m = 0.002;

Vec3 spread_way(Vec3 way, double spread, Dice& dice) {
  const Vec3 side = any_square_to(way);
  const Vec3 other = cross(way, side);
  return unit(way + spread * dice.bell() * side + spread * dice.bell() * other);
}

Vec3 cosine_way(Vec3 normal, Dice& dice) {
  const double r = std::sqrt(dice.next());
  const double angle = 2 * std::numbers::pi * dice.next();
  const Vec3 side = any_square_to(normal);
  const Vec3 other = cross(normal, side);
  return unit(r * std::cos(angle) * side + r * std::sin(angle) * other + std::sqrt(std::max(0.0, 1 - r * r)) * normal);
}

std::array<float, 3> floats(Point3 p) {
  return {static_cast<float>(p.x_m), static_cast<float>(p.y_m), static_cast<float>(p.z_m)};
}
std::array<float, 3> floats(Vec3 v) {
  return {static_cast<float>(v.x), static_cast<float>(v.y), static_cast<float>(v.z)};
}

bool is_thin(Material material) { return material == Material::leaf || material == Material::blade; }

}  // namespace

// From behind and to the right of the camera, 40 degrees high: late morning in spring.
Vec3 way_to_sun() { return unit(Vec3{0.70, -0.50, 0.60}); }

Colour sky(Vec3 way) {
  const double up = std::max(0.0, way.z);
  const Colour zenith{0.115, 0.235, 0.50};
  const Colour horizon{0.56, 0.66, 0.76};
  Colour clear = mix(horizon, zenith, std::pow(up, 0.52));
  const double toward_sun = std::max(0.0, dot(way, way_to_sun()));
  clear = clear + 0.18 * std::pow(toward_sun, 8) * Colour{1, 0.95, 0.85};
  if (way.z < 0.012) return clear;
  // Clouds on a flat layer overhead, so that they crowd towards the horizon.
  const double x = way.x / (way.z + 0.09);
  const double y = way.y / (way.z + 0.09);
  const double shape = cloudy(0.62 * x + 3.3, 0.95 * y + 1.4, 0.5, 6);
  const double cover = std::clamp((shape - 0.50) / 0.20, 0.0, 1.0);
  const double thick = cloudy(1.3 * x + 9, 1.7 * y + 2, 4, 5);
  const Colour cloud =
      mix(Colour{0.93, 0.92, 0.90}, Colour{0.60, 0.635, 0.69}, std::clamp(1.9 * (thick - 0.38), 0.0, 1.0) * cover);
  return mix(clear, cloud, 0.92 * cover * std::min(1.0, way.z / 0.07));
}

Daylight::Daylight(const Model& model) : model_(model), caster_(geometry::quickest_ray_caster(model.mesh)) {}

bool Daylight::meet(Point3 from, Vec3 way, Met& met) const {
  const auto hit = caster_->nearest({floats(from), floats(way), static_cast<float>(start_m), 1e4F});
  if (!hit) return false;
  const auto& corners = model_.mesh.triangles[hit->triangle];
  const auto corner = [&](int i) {
    const auto& p = model_.mesh.points_m[corners[static_cast<std::size_t>(i)]];
    return Point3{p[0], p[1], p[2]};
  };
  met.normal = unit(cross(corner(1) - corner(0), corner(2) - corner(0)));
  if (dot(met.normal, way) > 0) met.normal = -met.normal;
  met.at = from + double{hit->t} * way;
  met.thing = &model_.things[model_.mesh.thing[hit->triangle]];
  met.distance_m = hit->t;
  return true;
}

bool Daylight::is_free(Point3 from, Vec3 way) const {
  const geometry::Ray ray{floats(from), floats(way), static_cast<float>(start_m), 1e3F};
  std::uint8_t blocked = 0;
  caster_->occluded({&ray, 1}, {&blocked, 1});
  return blocked == 0;
}

Colour Daylight::sunlight(const Met& met, Dice& dice) const {
  const Vec3 sun = spread_way(way_to_sun(), sun_spread, dice);
  const double facing = dot(met.normal, sun);
  const double taken = facing > 0 ? facing : is_thin(met.thing->material) ? -leaf_transmitted * facing : 0;
  if (!(taken > 0) || !is_free(met.at + 2 * start_m * met.normal, sun)) return {};
  // Through a leaf the light gets yellower.
  const Colour tint = facing > 0 ? Colour{1, 1, 1} : Colour{1.15, 1.15, 0.45};
  return sun_strength * taken * (sun_colour * tint);
}

// One way at random over the half space: the sky, or what stands there, lit by the sun and a share of the sky.
Colour Daylight::skylight(const Met& met, Dice& dice) const {
  const Vec3 way = cosine_way(met.normal, dice);
  Met other;
  if (!meet(met.at + 2 * start_m * met.normal, way, other)) return 0.50 * sky(way);
  const Colour colour = surface_colour(*other.thing, other.at, other.normal, 100);
  return colour * (sunlight(other, dice) + Colour{0.10, 0.115, 0.14});
}

// A pane: the sky or the garden mirrored, more at a flat angle, over a dark room with a pale curtain.
Colour Daylight::mirrored(const Met& met, Vec3 way, Dice& dice) const {
  const double facing = -dot(way, met.normal);
  const double share = 0.07 + 0.93 * std::pow(1 - facing, 5);
  const double wave = 0.012 * (noise(2.3 * met.at.x_m, 2.3 * met.at.z_m, 1) - 0.5);
  const Vec3 out = unit(way + 2 * facing * met.normal + Vec3{wave, 0, wave});
  Met other;
  const Colour outside = meet(met.at, out, other) ? surface_colour(*other.thing, other.at, other.normal, 100) *
                                                        (sunlight(other, dice) + Colour{0.16, 0.18, 0.22})
                                                  : sky(out);
  const double folds = 0.5 + 0.5 * std::sin(38 * met.at.x_m + 3 * noise(met.at.x_m * 5, met.at.z_m));
  const double within = std::abs(met.at.x_m * 2 - std::floor(met.at.x_m * 2) - 0.5);
  const Colour curtain = (0.10 + 0.07 * folds) * Colour{1, 0.97, 0.9};
  const Colour room = within > 0.3 ? curtain : Colour{0.022, 0.021, 0.02};
  return room + (share + 0.16) * outside;
}

Colour Daylight::seen(Point3 from, Vec3 way, Dice& dice) const {
  Met met;
  if (!meet(from, way, met)) return sky(way);
  Colour light;
  if (met.thing->material == Material::glass) {
    light = mirrored(met, way, dice);
  } else {
    const Colour colour = surface_colour(*met.thing, met.at, met.normal, met.distance_m);
    light = colour * (sunlight(met, dice) + skylight(met, dice));
    if (is_thin(met.thing->material)) {
      // A leaf's skin shines a little.
      const Vec3 half = unit(way_to_sun() - way);
      const double shine = std::pow(std::abs(dot(half, met.normal)), 24);
      if (shine > 0.02 && is_free(met.at + 2 * start_m * met.normal, way_to_sun()))
        light = light + 0.09 * shine * sun_colour;
    }
  }
  const double haze = 1 - std::exp(-met.distance_m / 900);
  return mix(light, {0.50, 0.59, 0.70}, haze);
}

std::uint32_t Daylight::thing_seen(Point3 from, Vec3 way) const {
  const auto hit = caster_->nearest({floats(from), floats(way), static_cast<float>(start_m), 1e4F});
  return hit ? model_.mesh.thing[hit->triangle] : static_cast<std::uint32_t>(model_.things.size());
}

}  // namespace duskwire::demo
