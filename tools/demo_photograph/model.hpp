// SPDX-License-Identifier: Apache-2.0
// The modelled garden: triangles, each of a thing that has a material. Site frame, metres.
#pragma once

#include <string>
#include <vector>

#include "geometry/triangle_mesh.hpp"
#include "geometry/vec3.hpp"

namespace duskwire::demo {

using geometry::Point3;
using geometry::Vec3;

struct Colour {
  double r = 0;
  double g = 0;
  double b = 0;
};
[[nodiscard]] inline Colour operator+(Colour a, Colour b) { return {a.r + b.r, a.g + b.g, a.b + b.b}; }
[[nodiscard]] inline Colour operator*(Colour a, Colour b) { return {a.r * b.r, a.g * b.g, a.b * b.b}; }
[[nodiscard]] inline Colour operator*(double s, Colour a) { return {s * a.r, s * a.g, s * a.b}; }
[[nodiscard]] inline Colour mix(Colour a, Colour b, double t) { return (1 - t) * a + t * b; }

enum class Material {
  siding,
  trim,
  brick,
  shingle,
  glass,
  door,
  stone,
  deck,
  paver,
  soil,
  mulch,
  bark,
  leaf,
  blade,
  plain
};

struct Thing {
  Material material = Material::plain;
  Colour colour;
  std::string name;  // of what is marked on the picture; empty for the rest
};

class Model {
 public:
  std::uint32_t thing(Material material, Colour colour, std::string name = {});

  void triangle(std::uint32_t thing, Point3 a, Point3 b, Point3 c);
  // a, b, c, d in order round the outline.
  void quad(std::uint32_t thing, Point3 a, Point3 b, Point3 c, Point3 d);
  void box(std::uint32_t thing, Point3 low, Point3 high);
  // Tapered and round enough from where the camera stands.
  void limb(std::uint32_t thing, Point3 from, Point3 to, double from_radius_m, double to_radius_m);
  // Two triangles folded along the middle, as leaves are.
  void leaf(std::uint32_t thing, Point3 at, Vec3 along, Vec3 face, double length_m, double width_m);

  geometry::TriangleMesh mesh;
  std::vector<Thing> things;
};

void add_house(Model& model);
void add_ground(Model& model);
void add_plants(Model& model);

}  // namespace duskwire::demo
