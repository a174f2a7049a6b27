// SPDX-License-Identifier: Apache-2.0
// Signs to shapes. Up to 1995: values seen in test files of a public viewer (photometric-viewer, MIT); 2002 and 2019:
// table 1 of LM-63-02, from memory.
#include "light/opening.hpp"

#include <cmath>
#include <string>

namespace duskwire::light {
namespace {

// One letter per size: n below zero, p above, 0 none.
std::string signs_of(const std::array<double, 3>& size_m) {
  std::string signs;
  for (const double size : size_m) signs += size < 0 ? 'n' : size > 0 ? 'p' : '0';
  return signs;
}

struct Row {
  const char* signs;
  OpeningShape shape;
};

constexpr Row in_every_edition[] = {
    {"000", OpeningShape::point},     {"pp0", OpeningShape::rectangle}, {"p00", OpeningShape::rectangle},
    {"0p0", OpeningShape::rectangle}, {"ppp", OpeningShape::box},       {"p0p", OpeningShape::box},
    {"0pp", OpeningShape::box},       {"00p", OpeningShape::box},
};

constexpr Row up_to_1995[] = {
    {"n00", OpeningShape::round},
    {"n0n", OpeningShape::sphere},
    {"n0p", OpeningShape::upright_cylinder},
    {"0pn", OpeningShape::lying_cylinder_along},
    {"p0n", OpeningShape::lying_cylinder_across},
    {"np0", OpeningShape::ellipse},
    {"pn0", OpeningShape::ellipse},
    {"npp", OpeningShape::upright_elliptic_cylinder},
    {"pnp", OpeningShape::upright_elliptic_cylinder},
    {"npn", OpeningShape::ellipsoid},
    {"pnn", OpeningShape::ellipsoid},
    {"nnn", OpeningShape::ellipsoid},
};

constexpr Row from_2002[] = {
    {"nn0", OpeningShape::round},
    {"nnp", OpeningShape::upright_cylinder},
    {"nnn", OpeningShape::sphere},
    {"npn", OpeningShape::lying_cylinder_along},
    {"pnn", OpeningShape::lying_cylinder_across},
    {"n0n", OpeningShape::upright_disc},
    {"0nn", OpeningShape::upright_disc},
    {"n00", OpeningShape::round},
};

// Older files name a diameter once.
void repeat_diameter(Opening& opening) {
  const OpeningShape shape = opening.shape;
  if (shape == OpeningShape::lying_cylinder_along && opening.width_m == 0) opening.width_m = opening.height_m;
  if (opening.length_m > 0) return;
  if (shape == OpeningShape::lying_cylinder_across) opening.length_m = opening.height_m;
  if (shape == OpeningShape::round || shape == OpeningShape::sphere || shape == OpeningShape::upright_cylinder) {
    opening.length_m = opening.width_m;
  }
}

// The same signs serve circle and ellipse: equal sizes make it a circle.
OpeningShape widened(const Opening& opening) {
  const bool square = opening.width_m == opening.length_m;
  switch (opening.shape) {
    case OpeningShape::round:
      return square ? OpeningShape::round : OpeningShape::ellipse;
    case OpeningShape::upright_cylinder:
      return square ? OpeningShape::upright_cylinder : OpeningShape::upright_elliptic_cylinder;
    case OpeningShape::sphere:
      return square && opening.length_m == opening.height_m ? OpeningShape::sphere : OpeningShape::ellipsoid;
    case OpeningShape::upright_disc:
      return opening.width_m + opening.length_m == opening.height_m ? OpeningShape::upright_disc
                                                                    : OpeningShape::upright_ellipse;
    default:
      return opening.shape;
  }
}

}  // namespace

Opening opening_from_signs(IntensityFormat format, std::array<double, 3> size_m) {
  Opening opening{OpeningShape::unknown, std::abs(size_m[0]), std::abs(size_m[1]), std::abs(size_m[2])};
  const std::string signs = signs_of(size_m);
  const auto look = [&](const auto& rows) {
    for (const Row& row : rows) {
      if (opening.shape == OpeningShape::unknown && signs == row.signs) opening.shape = row.shape;
    }
  };
  look(in_every_edition);
  if (format >= IntensityFormat::lm63_2002) look(from_2002);
  look(up_to_1995);  // files of later editions keep to the older signs too
  repeat_diameter(opening);
  opening.shape = widened(opening);
  return opening;
}

std::array<double, 3> signed_size_2002(const Opening& opening) {
  const double w = opening.width_m;
  const double l = opening.length_m;
  const double h = opening.height_m;
  switch (opening.shape) {
    case OpeningShape::rectangle:
    case OpeningShape::box:
      return {w, l, h};
    case OpeningShape::round:
    case OpeningShape::ellipse:
      return {-w, -l, 0};
    case OpeningShape::upright_cylinder:
    case OpeningShape::upright_elliptic_cylinder:
      return {-w, -l, h};
    case OpeningShape::sphere:
    case OpeningShape::ellipsoid:
      return {-w, -l, -h};
    case OpeningShape::lying_cylinder_along:
      return {-w, l, -h};
    case OpeningShape::lying_cylinder_across:
      return {w, -l, -h};
    case OpeningShape::upright_disc:
    case OpeningShape::upright_ellipse:
      return {-w, -l, -h};
    case OpeningShape::point:
    case OpeningShape::unknown:
      return {0, 0, 0};
  }
  return {0, 0, 0};
}

const char* words_of(OpeningShape shape) {
  constexpr const char* words[] = {"point",
                                   "rectangle",
                                   "round",
                                   "ellipse",
                                   "box with luminous sides",
                                   "sphere",
                                   "ellipsoid",
                                   "upright cylinder",
                                   "upright elliptic cylinder",
                                   "lying cylinder, along the length",
                                   "lying cylinder, along the width",
                                   "upright disc",
                                   "upright ellipse",
                                   "unknown"};
  return words[static_cast<std::size_t>(shape)];
}

}  // namespace duskwire::light
