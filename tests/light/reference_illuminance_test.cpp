// SPDX-License-Identifier: Apache-2.0
// tests/reference/illuminance.csv: closed forms of illuminance, each row with its tolerance (values.md 5.3: computed
// from the law of the point, and from the formulas of disk and rectangle, which were checked by quadrature there). The
// distributions are read from the files that the rows name.
#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <numbers>

#include "light/area_source.hpp"
#include "light/illuminance.hpp"
#include "light/photometry_files.hpp"
#include "light/scenes.hpp"
#include "reference_rows.hpp"

namespace duskwire::light {
namespace {

using geometry::Point3;
using geometry::Vec3;

constexpr double luminance_cd_m2 = 1000;  // of the rows with areas

double illuminance_lx(const LitScene& lit, const Receiver& receiver) {
  float lx = 0;
  EXPECT_TRUE(lit.illuminance_lx({&receiver, 1}, {&lx, 1}));
  return double{lx};
}

void expect_row(const ReferenceRow& row, double lx) {
  const double expected_lx = row.number("expected");
  // A row that expects darkness has no relative tolerance.
  const double tolerance_lx = expected_lx == 0 ? 1e-9 : expected_lx * row.number("tol_pct") / 100;
  EXPECT_NEAR(lx, expected_lx, tolerance_lx) << row.text("id") << ": " << row.text("desc");
}

// `aim_tilt_deg` is the aim's angle from straight down, towards +x.
double point_row_lx(const ReferenceRow& row) {
  const double tilt_rad = row.number("aim_tilt_deg") * std::numbers::pi / 180;
  Scene scene;
  scene.distributions.push_back(reference_intensities(row.text("source_file")).distribution);
  Lamp lamp;
  lamp.position = {row.number("sx"), row.number("sy"), row.number("sz")};
  lamp.aim = {std::sin(tilt_rad), 0, -std::cos(tilt_rad)};
  lamp.zero = {std::cos(tilt_rad), 0, std::sin(tilt_rad)};
  scene.lamps.push_back(lamp);
  return illuminance_lx(LitScene(std::move(scene)), {{row.number("px"), row.number("py"), row.number("pz")},
                                                     {row.number("nx"), row.number("ny"), row.number("nz")}});
}

// The numbers of an id such as RP-1-2-3, after its letters.
std::vector<double> numbers_of_id(const std::string& id) {
  std::vector<double> numbers;
  for (std::size_t at = id.find('-'); at != std::string::npos; at = id.find('-', at + 1)) {
    numbers.push_back(std::stod(id.substr(at + 1)));
  }
  return numbers;
}

// A matt area of the luminance L and area A as many lamps of the table cos gamma: I0 = L A.
Scene matt_area(Point3 middle, double area_m2) {
  Scene scene;
  scene.distributions.push_back(testing::cosine_power(luminance_cd_m2, 1));
  Lamp lamp;
  lamp.position = middle;
  lamp.share = area_m2;
  scene.lamps.push_back(lamp);
  return scene;
}

double disk_row_lx(double radius_m, double height_m) {
  Scene scene = matt_area({0, 0, height_m}, std::numbers::pi * radius_m * radius_m);
  scene.lamps = spread_over_disk(scene.lamps[0], 2 * radius_m, 40);
  return illuminance_lx(LitScene(std::move(scene)), {{0, 0, 0}});
}

// The place lies under the corner at the origin; `normal` is up, or towards the area for the rows RP.
double rectangle_row_lx(double a_m, double b_m, double height_m, Vec3 normal) {
  Scene scene = matt_area({a_m / 2, b_m / 2, height_m}, a_m * b_m);
  scene.lamps = spread_over_rectangle(scene.lamps[0], a_m, b_m, 40, 40);
  return illuminance_lx(LitScene(std::move(scene)), {{0, 0, 0}, normal});
}

TEST(ReferenceIlluminance, AgreesWithEveryClosedForm) {
  std::array<int, 4> met{};
  for (const ReferenceRow& row : reference_rows("illuminance.csv")) {
    const std::string& id = row.text("id");
    ASSERT_EQ(row.text("unit"), "lx");
    if (row.has("source_file")) {
      ++met[0];
      expect_row(row, point_row_lx(row));
      continue;
    }
    const std::vector<double> sizes_m = numbers_of_id(id);
    if (id.starts_with("D-")) {
      ++met[1];
      expect_row(row, disk_row_lx(sizes_m.at(0), sizes_m.at(1)));
    } else if (id.starts_with("R-")) {
      ++met[2];
      expect_row(row, rectangle_row_lx(sizes_m.at(0), sizes_m.at(1), sizes_m.at(2), {0, 0, 1}));
    } else if (id.starts_with("RP-")) {
      ++met[3];
      expect_row(row, rectangle_row_lx(sizes_m.at(0), sizes_m.at(1), sizes_m.at(2), {1, 0, 0}));
    } else {
      FAIL() << "a row of no known kind: " << id;
    }
  }
  EXPECT_EQ(met, (std::array<int, 4>{42, 4, 3, 2}));
}

// Types A and B, whose rows have no illuminance of their own: the same made-up lamps in both ways of writing, so that
// the facing cosine gives E = I0 cos^n / r^2.
TEST(ReferenceIlluminance, TypesAAndBLightAsTheirTablesSay) {
  for (const char* name : {"photometry/made-here/type-a-cosV.ies", "photometry/made-here/type-b-cosH.ies"}) {
    Scene scene;
    scene.distributions.push_back(reference_intensities(name).distribution);
    scene.lamps.push_back({.position = {0, 0, 3}, .aim = {1, 0.2, -1}, .zero = {1, 0, 1}});
    const Distribution d = scene.distributions[0];
    const Vec3 aim = unit(scene.lamps[0].aim);
    const Vec3 x = unit(scene.lamps[0].zero - dot(scene.lamps[0].zero, aim) * aim);
    const Vec3 y = cross(-aim, x);
    const LitScene lit(std::move(scene));
    for (double x_m = -4; x_m <= 8; x_m += 0.5) {
      const Point3 place{x_m, 0.7, 0};
      const Vec3 way = place - lit.scene().lamps[0].position;
      const double expected_lx =
          direction_cd(d, {dot(way, x), dot(way, y), -dot(way, aim)}) * 3 / std::pow(length(way), 3);
      EXPECT_NEAR(illuminance_lx(lit, {place}), expected_lx, 0.005 * expected_lx + 0.01) << name << " " << x_m;
    }
  }
}

}  // namespace
}  // namespace duskwire::light
