// SPDX-License-Identifier: Apache-2.0
// The oak, the shrubs of the beds, a hedge, far trees and the grass: leaves and blades as triangles.
#include <cmath>

#include "model.hpp"
#include "noise.hpp"

namespace duskwire::demo {
namespace {

Vec3 any_way(Dice& dice) {
  const double z = dice.between(-1, 1);
  const double angle = dice.between(0, 6.28318530718);
  const double flat = std::sqrt(std::max(0.0, 1 - z * z));
  return {flat * std::cos(angle), flat * std::sin(angle), z};
}

// A few greens of one plant, so that its leaves differ.
std::vector<std::uint32_t> greens(Model& model, Colour colour, const std::string& name) {
  std::vector<std::uint32_t> shades;
  for (const double tone : {0.75, 0.9, 1.0, 1.1, 1.28}) {
    shades.push_back(
        model.thing(Material::leaf, tone * Colour{colour.r * (0.9 + 0.1 * tone * tone), colour.g, colour.b}, name));
  }
  return shades;
}

struct LeafSize {
  double length_m = 0.1;
  double width_m = 0.06;
};

// Leaves round a middle; they look mostly outwards and up, as leaves do that want light.
void add_clump(Model& model, const std::vector<std::uint32_t>& shades, Dice& dice, Point3 middle, double radius_m,
               int count, LeafSize size) {
  for (int i = 0; i < count; ++i) {
    const Vec3 out = any_way(dice);
    const Point3 at = middle + radius_m * std::cbrt(dice.next()) * out;
    const Vec3 face = unit(0.5 * out + 0.8 * any_way(dice) + Vec3{0, 0, 0.55});
    const Vec3 along = unit(cross(face, any_way(dice)));
    const double grown = dice.between(0.7, 1.25);
    model.leaf(shades[static_cast<std::size_t>(dice.next() * 4.999)], at, along, face, grown * size.length_m,
               grown * size.width_m);
  }
}

struct CrownShape {
  Point3 foot;
  double base_m = 3;
  double height_m = 12;
  double width_m = 9;
};

// Boughs from the trunk to clumps all over an uneven ellipsoid.
void add_tree(Model& model, const CrownShape& shape, Colour leaves, const std::string& name, std::uint32_t seed,
              int clumps, int leaves_in_clump, LeafSize size) {
  Dice dice(seed);
  const std::uint32_t bark = model.thing(Material::bark, {0.13, 0.105, 0.085}, name);
  const auto shades = greens(model, leaves, name);
  const double middle_z = (shape.base_m + shape.height_m) / 2;
  const double half_z = (shape.height_m - shape.base_m) / 2;
  const double half_x = shape.width_m / 2;
  const double thick = 0.03 * shape.height_m;
  Point3 from = shape.foot;
  from.z_m = -0.1;
  Point3 fork = shape.foot + Vec3{0.15, 0.1, shape.base_m * 0.85};
  model.limb(bark, from, shape.foot + Vec3{0.03, 0.02, 0.35}, thick * 1.35, thick);
  model.limb(bark, shape.foot + Vec3{0.03, 0.02, 0.35}, fork, thick, thick * 0.8);
  model.limb(bark, fork, {shape.foot.x_m - 0.2, shape.foot.y_m + 0.1, middle_z + 0.4 * half_z}, thick * 0.75,
             thick * 0.2);
  for (int i = 0; i < clumps; ++i) {
    const Vec3 way = any_way(dice);
    const double uneven = 0.78 + 0.35 * noise(2.2 * way.x + seed, 2.2 * way.y, 2.2 * way.z);
    const double out = uneven * (0.45 + 0.55 * std::sqrt(dice.next()));
    const Point3 at{shape.foot.x_m + half_x * out * way.x, shape.foot.y_m + half_x * out * way.y,
                    middle_z + half_z * std::min(1.0, out) * way.z};
    if (i % 9 == 0) {
      const Point3 start = fork + dice.between(0, 0.8) * Vec3{-0.35, 0, middle_z - shape.base_m};
      const Point3 knee = start + 0.5 * (at - start) + Vec3{0, 0, 0.12 * half_z};
      model.limb(bark, start, knee, thick * 0.28, thick * 0.15);
      model.limb(bark, knee, at, thick * 0.15, thick * 0.04);
    }
    add_clump(model, shades, dice, at, shape.width_m * dice.between(0.05, 0.095), leaves_in_clump, size);
  }
}

void add_shrub(Model& model, Point3 foot, double radius_m, double height_m, Colour colour, const std::string& name,
               std::uint32_t seed, bool flowers) {
  Dice dice(seed);
  const auto shades = greens(model, colour, name);
  const std::uint32_t flower = model.thing(Material::leaf, {0.78, 0.74, 0.80}, name);
  for (int i = 0; i < 170; ++i) {
    const Vec3 way = any_way(dice);
    const double out =
        (0.55 + 0.4 * std::sqrt(dice.next())) * (0.85 + 0.25 * noise(3 * way.x + seed, 3 * way.y, 3 * way.z));
    const Point3 at{foot.x_m + radius_m * out * way.x, foot.y_m + radius_m * out * way.y,
                    height_m * (0.52 + 0.5 * out * way.z)};
    add_clump(model, shades, dice, at, 0.11, 26, {0.055, 0.034});
    if (flowers && i % 5 == 0 && way.z > -0.2)
      add_clump(model, {flower, flower, flower, flower, flower}, dice, at + 0.1 * way, 0.075, 26, {0.035, 0.03});
  }
}

void add_beds(Model& model) {
  struct Plant {
    double x, y, radius, height;
    bool flowers;
  };
  const Plant plants[] = {
      {9.9, 14.9, 0.65, 1.05, false}, {11.3, 14.5, 0.55, 0.75, true},  {12.6, 15.0, 0.60, 0.95, false},
      {13.8, 14.6, 0.50, 0.70, true}, {19.95, 14.7, 0.50, 0.72, true}, {21.1, 15.0, 0.62, 0.95, false},
      {22.4, 14.5, 0.55, 0.75, true}, {23.7, 14.9, 0.62, 1.00, false}, {24.8, 14.6, 0.48, 0.70, true}};
  std::uint32_t seed = 40;
  for (const Plant& plant : plants) {
    const Colour colour = plant.flowers ? Colour{0.085, 0.135, 0.045} : Colour{0.05, 0.095, 0.035};
    add_shrub(model, {plant.x, plant.y, 0}, plant.radius, plant.height, colour, "shrub-" + std::to_string(seed - 39),
              seed, plant.flowers);
    ++seed;
  }
}

void add_hedge(Model& model, Point3 low, Point3 high, std::uint32_t seed) {
  Dice dice(seed);
  const auto shades = greens(model, {0.055, 0.10, 0.035}, "");
  const double long_m = std::max(high.x_m - low.x_m, high.y_m - low.y_m);
  for (int i = 0; i < static_cast<int>(90 * long_m); ++i) {
    const Point3 at{dice.between(low.x_m, high.x_m), dice.between(low.y_m, high.y_m), dice.between(low.z_m, high.z_m)};
    add_clump(model, shades, dice, at, 0.2, 16, {0.09, 0.06});
  }
}

void add_far_trees(Model& model) {
  Dice dice(77);
  for (int i = 0; i < 26; ++i) {
    const double angle = -1.02 + 1.75 * i / 25 + dice.between(-0.02, 0.02);
    const double distance = dice.between(58, 95);
    const Point3 foot{16.9 + distance * std::sin(angle), distance * std::cos(angle) - 3, 0};
    const double height = dice.between(11, 17);
    const double tone = dice.between(0.8, 1.2);
    add_tree(model, {foot, 1.5, height, dice.between(9, 13)}, tone * Colour{0.085, 0.11, 0.04}, "",
             300 + static_cast<std::uint32_t>(i), 220, 34, {0.34, 0.24});
  }
}

bool is_lawn(double x, double y) {
  if (x > 16.1 && x < 17.7 && y < 13.1) return false;
  if (y > 12.95 && x > 8.9 && x < 25.9 && y < 28) return false;
  return true;
}

// Blades where a blade is more than a pixel's texture: dense near the camera, thin far away.
void add_grass(Model& model) {
  Dice dice(5);
  std::vector<std::uint32_t> shades;
  for (const double tone : {0.7, 0.85, 1.0, 1.15, 1.3})
    shades.push_back(model.thing(Material::blade, tone * Colour{0.15, 0.20, 0.05}));
  shades.push_back(model.thing(Material::blade, {0.30, 0.26, 0.11}));
  const Point3 eye{16.9, -3, 0};
  int sown = 0;
  while (sown < 520'000) {
    // Uniform in angle and in the logarithm of distance: as many on each part of the picture.
    const double angle = dice.between(-0.98, 0.5);
    const double distance = 3.4 * std::exp(dice.next() * std::log(34 / 3.4));
    const double x = eye.x_m + distance * std::sin(angle);
    const double y = eye.y_m + distance * std::cos(angle);
    ++sown;
    if (!is_lawn(x, y)) continue;
    const double lush = 0.6 + 0.8 * cloudy(0.9 * x, 0.9 * y, 0, 3);
    const double tall = lush * dice.between(0.018, 0.045);
    const double wide = 0.0022 * std::max(1.0, distance / 5);
    const Vec3 lean{0.6 * dice.bell() * tall, 0.6 * dice.bell() * tall, tall};
    const double turn = dice.between(0, 3.14159);
    const Vec3 side{wide * std::cos(turn), wide * std::sin(turn), 0};
    const auto shade = dice.next() < 0.03 ? std::size_t{5} : static_cast<std::size_t>(dice.next() * 4.999);
    const Point3 foot{x, y, 0};
    model.triangle(shades[shade], foot - side, foot + side, foot + lean);
  }
}

}  // namespace

void add_plants(Model& model) {
  add_tree(model, {{6, 8, 0}, 3.2, 13, 9}, {0.115, 0.15, 0.042}, "oak", 11, 1150, 78, {0.105, 0.06});
  add_beds(model);
  add_hedge(model, {-0.9, 3, 0}, {-0.1, 40, 1.7}, 21);
  add_hedge(model, {-2, 47.5, 0}, {36, 48.3, 1.9}, 22);
  add_tree(model, {{-9, 21, 0}, 2.2, 9.5, 8}, {0.10, 0.12, 0.04}, "", 31, 420, 60, {0.16, 0.10});
  add_tree(model, {{31.5, 34, 0}, 2, 11, 7}, {0.09, 0.13, 0.05}, "", 32, 380, 50, {0.16, 0.10});
  add_far_trees(model);
  add_grass(model);
}

}  // namespace duskwire::demo
