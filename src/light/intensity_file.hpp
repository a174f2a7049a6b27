// SPDX-License-Identifier: Apache-2.0
// What a file of light intensities says (LM-63 or EULUMDAT): its facts, its table as listed, and the table unfolded.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/problem.hpp"
#include "light/distribution.hpp"

namespace duskwire::light {

enum class IntensityFormat : std::uint8_t {
  lm63_1986 = 0,
  lm63_1991 = 1,
  lm63_1995 = 2,
  lm63_2002 = 3,
  lm63_2019 = 4,
  eulumdat = 5,
};

// How the listed planes stand for those not listed. The last three belong to types A and B.
enum class IntensitySymmetry : std::uint8_t {
  none = 0,
  axial = 1,          // one plane for the whole turn
  mirror_0_180 = 2,   // I(C) = I(360 - C)
  mirror_90_270 = 3,  // I(C) = I(180 - C)
  quadrants = 4,      // both
  left_right = 5,     // I(H) = I(-H)
  up_down = 6,        // I(V) = I(-V)
  quarters = 7,       // both
};

enum class OpeningShape : std::uint8_t {
  point = 0,
  rectangle = 1,
  round = 2,
  ellipse = 3,
  box = 4,
  sphere = 5,
  ellipsoid = 6,
  upright_cylinder = 7,
  upright_elliptic_cylinder = 8,
  lying_cylinder_along = 9,
  lying_cylinder_across = 10,
  upright_disc = 11,
  upright_ellipse = 12,
  unknown = 13,
};

struct Opening {
  OpeningShape shape = OpeningShape::point;
  double width_m = 0;  // sizes without the signs that code the shape
  double length_m = 0;
  double height_m = 0;

  bool operator==(const Opening&) const = default;
};

// The table as it stands in the file, every factor applied.
struct ListedTable {
  PhotometricType type = PhotometricType::c;
  IntensitySymmetry symmetry = IntensitySymmetry::none;
  std::vector<double> horizontal_deg;
  std::vector<double> vertical_deg;
  std::vector<double> intensity_cd;  // [horizontal][vertical]

  bool operator==(const ListedTable&) const = default;
};

struct Keyword {
  std::string name;  // without brackets, capitals
  std::string text;  // lines of [MORE] joined by line feeds

  bool operator==(const Keyword&) const = default;
};

// Factors of a lamp that burns tilted. They are no part of the table: they hold for one way of mounting it.
struct LampTilt {
  int geometry = 1;  // 1 lamp upright, 2 lamp lies and stays so, 3 lamp lies and tilts along
  std::vector<double> angle_deg;
  std::vector<double> factor;

  bool operator==(const LampTilt&) const = default;
};

struct LampSet {
  double count = 1;
  std::string kind;
  double flux_lm = 0;  // of the whole set
  std::string colour;
  std::string rendering;
  double power_w = 0;

  bool operator==(const LampSet&) const = default;
};

struct IntensityFile {
  IntensityFormat format = IntensityFormat::lm63_2002;
  std::vector<Keyword> keywords;  // EULUMDAT: its name fields under the names LM-63 has for them
  std::string tilt;               // LM-63: NONE, INCLUDE or the name of a file
  std::optional<LampTilt> lamp_tilt;
  double lamp_count = 1;
  std::optional<double> lumens_per_lamp;  // nothing: absolute photometry
  double multiplier = 1;
  double ballast_factor = 1;
  double slot12 = 1;  // LM-63: the number between ballast factor and watts
  double power_w = 0;
  bool in_feet = false;
  std::array<double, 3> size_as_written{};  // LM-63: width, length, height with their signs and unit
  Opening opening;

  // EULUMDAT only.
  std::vector<LampSet> lamp_sets;
  std::optional<double> downward_pct;      // DFF
  std::optional<double> output_ratio_pct;  // LORL
  std::size_t c_count = 0;                 // Mc: planes of the whole turn

  ListedTable listed;  // EULUMDAT: in cd per 1000 lm of the lamp set, as written, times the conversion factor
  Distribution distribution;

  bool operator==(const IntensityFile&) const = default;
};

// The factor at a tilt of the luminaire, linear between the file's angles and held beyond their ends.
[[nodiscard]] double tilt_factor(const LampTilt& tilt, double tilt_deg);

// A file that can be used, or none; and everything found. Pointers: "line 12".
struct ReadIntensities {
  std::optional<IntensityFile> file;
  Problems problems;
};

// The words for people and for JSON.
[[nodiscard]] const char* title_of(IntensityFormat format);

}  // namespace duskwire::light
