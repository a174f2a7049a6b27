// SPDX-License-Identifier: Apache-2.0
// The demo garden's house front and what leads to it, as the demo job's plan has them: wall at y = 16 m, x 9 to 25 m,
// 6.2 m high; porch, steps and walk before the door at x = 16.9 m.
#include "model.hpp"
#include "noise.hpp"

namespace duskwire::demo {
namespace {

constexpr double wall_y_m = 16;
constexpr double board_m = 0.17;
constexpr Colour white{0.80, 0.79, 0.75};

// Boards that lap: each stands out at its lower edge.
void add_siding(Model& model, double from_x, double to_x, double y, double from_z, double to_z) {
  for (double z = from_z; z < to_z - 0.01; z += board_m) {
    const double shade = 0.97 + 0.06 * unit_of(cell_hash(static_cast<int>(z * 100), 3));
    const std::uint32_t board = model.thing(Material::siding, shade * Colour{0.60, 0.575, 0.50});
    const double top = std::min(z + board_m, to_z);
    model.quad(board, {from_x, y - 0.018, z}, {to_x, y - 0.018, z}, {to_x, y - 0.001, top}, {from_x, y - 0.001, top});
    model.quad(board, {from_x, y - 0.018, z}, {to_x, y - 0.018, z}, {to_x, y, z}, {from_x, y, z});
  }
}

// A sash window with casing, bars, sill and a pair of shutters.
void add_window(Model& model, double middle_x, double from_z, double to_z, double width_m) {
  const double l = middle_x - width_m / 2;
  const double r = middle_x + width_m / 2;
  const double y = wall_y_m;
  const std::uint32_t casing = model.thing(Material::trim, white);
  const std::uint32_t glass = model.thing(Material::glass, {0.02, 0.022, 0.025}, "window");
  model.quad(glass, {l, y - 0.03, from_z}, {r, y - 0.03, from_z}, {r, y - 0.03, to_z}, {l, y - 0.03, to_z});
  const double c = 0.11;
  model.box(casing, {l - c, y - 0.07, from_z - 0.02}, {l, y, to_z + c});
  model.box(casing, {r, y - 0.07, from_z - 0.02}, {r + c, y, to_z + c});
  model.box(casing, {l - c - 0.03, y - 0.09, to_z}, {r + c + 0.03, y, to_z + c + 0.04});
  model.box(casing, {l - c - 0.05, y - 0.13, from_z - 0.07}, {r + c + 0.05, y, from_z});
  const double middle_z = (from_z + to_z) / 2;
  model.box(casing, {l, y - 0.055, middle_z - 0.03}, {r, y - 0.03, middle_z + 0.03});
  for (const double x : {l + width_m / 3, r - width_m / 3}) {
    model.box(casing, {x - 0.012, y - 0.045, from_z}, {x + 0.012, y - 0.03, to_z});
  }
  for (const double z : {(from_z + middle_z) / 2, (middle_z + to_z) / 2}) {
    model.box(casing, {l, y - 0.045, z - 0.012}, {r, y - 0.03, z + 0.012});
  }
  const std::uint32_t shutter = model.thing(Material::trim, {0.055, 0.085, 0.075});
  for (const double from_x : {l - c - 0.47, r + c + 0.04}) {
    model.box(shutter, {from_x, y - 0.045, from_z}, {from_x + 0.43, y - 0.02, to_z + 0.02});
    for (double z = from_z + 0.07; z < to_z - 0.05; z += 0.055) {
      if (std::abs(z - middle_z) < 0.05) continue;
      model.quad(shutter, {from_x + 0.05, y - 0.065, z}, {from_x + 0.38, y - 0.065, z},
                 {from_x + 0.38, y - 0.045, z + 0.05}, {from_x + 0.05, y - 0.045, z + 0.05});
    }
  }
}

void add_door(Model& model) {
  const double y = wall_y_m;
  const std::uint32_t leaf = model.thing(Material::door, {0.30, 0.045, 0.035});
  const std::uint32_t casing = model.thing(Material::trim, white);
  const std::uint32_t glass = model.thing(Material::glass, {0.02, 0.022, 0.025}, "window");
  const std::uint32_t brass = model.thing(Material::plain, {0.55, 0.42, 0.15});
  model.box(leaf, {16.42, y - 0.03, 0.5}, {17.38, y, 2.6});
  for (const double from_x : {16.53, 16.95}) {
    model.box(leaf, {from_x, y - 0.05, 0.72}, {from_x + 0.32, y - 0.03, 1.35});
    model.box(leaf, {from_x, y - 0.05, 1.48}, {from_x + 0.32, y - 0.03, 2.46});
  }
  model.box(brass, {17.29, y - 0.09, 1.42}, {17.34, y - 0.03, 1.56});
  for (const double from_x : {16.0, 17.5}) {
    model.quad(glass, {from_x, y - 0.028, 1.1}, {from_x + 0.3, y - 0.028, 1.1}, {from_x + 0.3, y - 0.028, 2.6},
               {from_x, y - 0.028, 2.6});
    model.box(leaf, {from_x, y - 0.04, 0.5}, {from_x + 0.3, y, 1.1});
    for (const double z : {1.6, 2.1})
      model.box(casing, {from_x, y - 0.045, z - 0.012}, {from_x + 0.3, y - 0.03, z + 0.012});
  }
  for (const double x : {15.88, 16.3, 17.38, 17.8}) model.box(casing, {x, y - 0.09, 0.5}, {x + 0.12, y, 2.72});
  model.box(casing, {15.78, y - 0.12, 2.62}, {18.02, y, 2.86});
  // A small hood on brackets.
  const std::uint32_t shingle = model.thing(Material::shingle, {0.10, 0.095, 0.09});
  model.quad(shingle, {15.55, y - 0.85, 2.98}, {18.25, y - 0.85, 2.98}, {18.1, y, 3.45}, {15.7, y, 3.45});
  model.box(casing, {15.55, y - 0.85, 2.9}, {18.25, y, 2.98});
  for (const double x : {15.72, 17.96})
    model.limb(casing, {x + 0.06, y - 0.7, 2.92}, {x + 0.06, y - 0.03, 2.2}, 0.045, 0.045);
}

void add_roof(Model& model) {
  const std::uint32_t shingle = model.thing(Material::shingle, {0.125, 0.115, 0.108}, "roof");
  const std::uint32_t trim = model.thing(Material::trim, white);
  model.quad(shingle, {8.6, 15.45, 6.2}, {25.4, 15.45, 6.2}, {25.4, 21.5, 9.7}, {8.6, 21.5, 9.7});
  model.quad(shingle, {8.6, 27.5, 6.2}, {25.4, 27.5, 6.2}, {25.4, 21.5, 9.7}, {8.6, 21.5, 9.7});
  model.box(trim, {8.6, 15.42, 6.0}, {25.4, 15.47, 6.2});
  model.box(trim, {8.6, 15.47, 6.02}, {25.4, 16, 6.06});
  const std::uint32_t gutter = model.thing(Material::trim, 0.92 * white);
  model.limb(gutter, {8.6, 15.37, 6.13}, {25.4, 15.37, 6.13}, 0.065, 0.065);
  for (const double x : {9.12, 24.88}) model.limb(gutter, {x, 15.9, 0.1}, {x, 15.9, 5.9}, 0.04, 0.04);
  const std::uint32_t brick = model.thing(Material::brick, {0.34, 0.15, 0.10});
  model.box(brick, {20.6, 20.6, 8.2}, {21.6, 21.5, 11.1});
  model.box(brick, {20.52, 20.52, 10.9}, {21.68, 21.58, 11.05});
}

void add_porch(Model& model) {
  const std::uint32_t deck = model.thing(Material::deck, {0.36, 0.31, 0.26});
  const std::uint32_t stone = model.thing(Material::stone, {0.42, 0.40, 0.37});
  const std::uint32_t brick = model.thing(Material::brick, {0.34, 0.15, 0.10});
  const std::uint32_t trim = model.thing(Material::trim, white);
  model.box(brick, {14.54, 14.24, 0}, {19.26, 16, 0.44});
  model.box(deck, {14.5, 14.2, 0.44}, {19.3, 16, 0.5});
  model.box(stone, {16, 13.0, 0}, {17.8, 14.24, 0.17});
  model.box(stone, {16, 13.4, 0.17}, {17.8, 14.24, 0.335});
  model.box(stone, {15.97, 13.8, 0.335}, {17.83, 14.24, 0.5});
  for (const auto& [from_x, to_x] : {std::pair{14.55, 15.9}, std::pair{17.9, 19.25}}) {
    for (const double x : {from_x, to_x}) {
      model.box(trim, {x - 0.055, 14.24, 0.5}, {x + 0.055, 14.35, 1.5});
      model.box(trim, {x - 0.075, 14.22, 1.5}, {x + 0.075, 14.37, 1.55});
    }
    model.box(trim, {from_x, 14.265, 1.36}, {to_x, 14.33, 1.42});
    model.box(trim, {from_x, 14.27, 0.6}, {to_x, 14.32, 0.65});
    for (double x = from_x + 0.13; x < to_x - 0.06; x += 0.115) {
      model.box(trim, {x - 0.016, 14.28, 0.65}, {x + 0.016, 14.312, 1.36});
    }
  }
}

}  // namespace

void add_house(Model& model) {
  add_siding(model, 9, 25, wall_y_m, 0.5, 6.0);
  const std::uint32_t trim = model.thing(Material::trim, white);
  const std::uint32_t brick = model.thing(Material::brick, {0.34, 0.15, 0.10});
  const std::uint32_t inside = model.thing(Material::plain, {0.3, 0.3, 0.3});
  model.box(brick, {9, wall_y_m - 0.03, 0}, {25, wall_y_m + 0.2, 0.46});
  model.box(trim, {9, wall_y_m - 0.06, 0.46}, {25, wall_y_m, 0.54});
  model.box(trim, {9, wall_y_m - 0.035, 5.78}, {25, wall_y_m, 6.02});
  for (const double x : {8.97, 24.87}) model.box(trim, {x, wall_y_m - 0.035, 0.5}, {x + 0.16, wall_y_m + 0.1, 6.02});
  model.box(inside, {9, wall_y_m + 0.01, 0}, {25, 27, 6.2});
  for (const double x : {11.0, 13.25, 20.75, 23.0}) add_window(model, x, 1.35, 3.0, 1.0);
  for (const double x : {11.0, 13.25, 16.9, 20.75, 23.0}) add_window(model, x, 4.15, 5.6, 1.0);
  add_door(model);
  add_roof(model);
  add_porch(model);
  // The garage stands back by 2 m.
  add_siding(model, 25, 33, 18, 0, 3.2);
  const std::uint32_t shingle = model.thing(Material::shingle, {0.125, 0.115, 0.108});
  model.box(inside, {25, 18.01, 0}, {33, 26, 3.4});
  model.quad(shingle, {24.9, 17.6, 3.3}, {33.4, 17.6, 3.3}, {33.4, 22, 5.3}, {24.9, 22, 5.3});
  model.box(trim, {25, 17.58, 3.15}, {33.4, 17.63, 3.32});
}

void add_ground(Model& model) {
  const std::uint32_t soil = model.thing(Material::soil, {0.13, 0.165, 0.05}, "ground");
  const std::uint32_t paver = model.thing(Material::paver, {0.33, 0.27, 0.23});
  const std::uint32_t mulch = model.thing(Material::mulch, {0.085, 0.052, 0.034});
  const std::uint32_t stone = model.thing(Material::stone, {0.42, 0.40, 0.37});
  model.quad(soil, {-150, -10, 0}, {180, -10, 0}, {180, 300, 0}, {-150, 300, 0});
  model.quad(paver, {16.2, -1.6, 0.012}, {17.6, -1.6, 0.012}, {17.6, 13, 0.012}, {16.2, 13, 0.012});
  for (const auto& [from_x, to_x] : {std::pair{9.0, 14.5}, std::pair{19.3, 25.8}}) {
    model.quad(mulch, {from_x, 13.2, 0.02}, {to_x, 13.2, 0.02}, {to_x, 16, 0.06}, {from_x, 16, 0.06});
    model.box(stone, {from_x, 13.12, 0}, {to_x, 13.22, 0.07});
  }
}

}  // namespace duskwire::demo
