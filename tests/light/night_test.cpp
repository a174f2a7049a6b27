// SPDX-License-Identifier: Apache-2.0
// Night pictures of small made-up photographs whose light is known in closed form.
#include "light/night.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "light/colour.hpp"

namespace duskwire::light {
namespace {

using geometry::Point3;

constexpr std::uint32_t side_px = 64;

// Every way the same: 100 cd.
Distribution even_light() {
  Distribution even;
  even.horizontal_deg = {0};
  even.vertical_deg = {0, 180};
  even.intensity_cd = {100, 100};
  return even;
}

// Looks north at a wall 10 m away, which fills the picture: 1 m is 6.4 elements.
NightPlate wall_plate(double reflectance) {
  NightPlate plate;
  plate.camera.width_px = side_px;
  plate.camera.height_px = side_px;
  plate.camera.focal_px = side_px;
  plate.camera.principal = {side_px / 2.0, side_px / 2.0};
  plate.camera.position = {0, -10, 2};
  NightPiece wall;
  wall.outline = {{0, 0}, {side_px, 0}, {side_px, side_px}, {0, side_px}};
  wall.on_plane = {0, 0, 0};
  wall.normal = {0, -1, 0};
  wall.reflectance = reflectance;
  plate.pieces = {wall};
  return plate;
}

Photograph grey_photograph(std::uint8_t value) {
  return {side_px, side_px, std::vector<std::uint8_t>(std::size_t{3} * side_px * side_px, value)};
}

LitScene lamp_before_wall(double share = 1) {
  Scene scene;
  scene.distributions = {even_light()};
  scene.lamps.resize(1);
  scene.lamps[0].position = {1, -2, 3};
  scene.lamps[0].share = share;
  return LitScene(scene);
}

NightGrid whole_grid(const Photograph& photograph, const NightPlate& plate) {
  return night_grid(photograph, plate, read_daylight(photograph, plate), 0, photograph.height_px);
}

// E = I cos(i) / r^2 and L = E rho / pi, at the place that an element shows.
double luminance_by_hand(const NightPlate& plate, std::uint32_t column, std::uint32_t row, double reflectance) {
  const Point3 place = *site_from_pixel(plate.camera, {column + 0.5, row + 0.5}, {0, 0, 0}, {0, -1, 0});
  const double dx = place.x_m - 1;
  const double dz = place.z_m - 3;
  const double r2 = dx * dx + 4 + dz * dz;
  return 100 * (2 / std::sqrt(r2)) / r2 * reflectance / std::numbers::pi;
}

TEST(Night, ElementIsIlluminanceTimesReflectanceOverPi) {
  const NightPlate plate = wall_plate(0.4);
  const NightGrid grid = whole_grid(grey_photograph(120), plate);
  std::vector<std::vector<float>> layers(1);
  night_layer(grid, lamp_before_wall(), 0, layers[0]);
  const NightTone tone{.ambient_lx = 0, .white_k = 2700};
  std::vector<std::array<float, 3>> shown;
  show_night(grid, plate, {sum_by_colour(layers, std::vector<LampState>{{1, 2700}}), layers[0], {}}, tone, shown);
  for (const std::uint32_t row : {0u, 13u, 32u, 63u}) {
    for (const std::uint32_t column : {0u, 31u, 40u, 63u}) {
      const double expected = luminance_by_hand(plate, column, row, 0.4);
      // White light on grey: each part is the luminance. 0.2 %: single precision and the resampled table.
      for (const float part : shown[row * side_px + column]) EXPECT_NEAR(part, expected, 0.002 * expected);
    }
  }
}

TEST(Night, LayerIsAtFullLightWhateverTheShareOfTheScene) {
  const NightGrid grid = whole_grid(grey_photograph(120), wall_plate(0.4));
  std::vector<float> full;
  std::vector<float> dimmed;
  night_layer(grid, lamp_before_wall(1), 0, full);
  night_layer(grid, lamp_before_wall(0.3), 0, dimmed);
  for (std::size_t i = 0; i < full.size(); i += 97) EXPECT_NEAR(dimmed[i], full[i], 1e-4F * full[i]);
}

TEST(Night, LightIsTheSumOfTheLamps) {
  const std::vector<std::vector<float>> layers{{1, 2}, {10, 20}, {100, 200}};
  const auto lights = sum_by_colour(layers, std::vector<LampState>{{1, 2700}, {0.5, 4000}, {0.1, 2700}});
  ASSERT_EQ(lights.size(), 2u);
  EXPECT_FLOAT_EQ(lights[0].lx[1], 2 + 20);
  EXPECT_FLOAT_EQ(lights[1].lx[1], 10);
  EXPECT_TRUE(sum_by_colour(layers, std::vector<LampState>{{0, 2700}, {0, 2700}, {0, 2700}}).empty());
}

TEST(Night, LampInHandIsOneMoreOfTheLamps) {
  const NightPlate plate = wall_plate(0.4);
  const NightGrid grid = whole_grid(grey_photograph(120), plate);
  std::vector<float> wide(grid.receivers.size(), 3);
  std::vector<float> narrow(grid.receivers.size());
  for (std::size_t i = 0; i < narrow.size(); ++i) narrow[i] = static_cast<float>(i % 50);
  const NightTone tone{.ambient_lx = 0.1};
  const std::vector<std::vector<float>> layers{wide, narrow};
  const std::vector<LampState> states{{0.5, 2700}, {0.7, 4000}};
  std::vector<float> all_lx = wide;
  add_layer(narrow, 1, all_lx);
  std::vector<std::array<float, 3>> summed;
  const LogMean mean = show_night(grid, plate, {sum_by_colour(layers, states), all_lx, {}}, tone, summed);
  std::vector<std::array<float, 3>> held;
  const NightLight light{sum_by_colour({&wide, 1}, {&states[0], 1}), wide, {narrow, states[1]}};
  const LogMean mean_held = show_night(grid, plate, light, tone, held);
  EXPECT_NEAR(mean_held.value_cd_m2(), mean.value_cd_m2(), 1e-6 * mean.value_cd_m2());
  ASSERT_EQ(held.size(), summed.size());
  for (std::size_t i = 0; i < held.size(); ++i) {
    for (std::size_t c = 0; c < 3; ++c) ASSERT_NEAR(held[i][c], summed[i][c], 1e-6F + 1e-5F * std::abs(summed[i][c]));
  }
}

TEST(Night, MeanReflectanceIsWhatWasAskedForAndTextureIsKept) {
  Photograph photograph = grey_photograph(0);
  // Stripes one element wide, and twice as much light on the left half as on the right.
  for (std::uint32_t i = 0; i < side_px * side_px; ++i) {
    const double stripe = (i / side_px) % 2 == 0 ? 0.30 : 0.15;
    const double light = i % side_px < side_px / 2 ? 1.0 : 0.5;
    const auto byte = static_cast<std::uint8_t>(std::lround(255 * srgb_encoded(stripe * light)));
    for (std::uint32_t c = 0; c < 3; ++c) photograph.rgb[3 * i + c] = byte;
  }
  const NightGrid grid = whole_grid(photograph, wall_plate(0.35));
  double sum = 0;
  double left = 0;
  for (std::uint32_t i = 0; i < side_px * side_px; ++i) {
    sum += grid.reflectance[i][1];
    if (i % side_px < side_px / 2) left += grid.reflectance[i][1];
  }
  EXPECT_NEAR(sum / (side_px * side_px), 0.35, 0.002);
  // The stripes stay two to one; of the shade's two to one little is left.
  EXPECT_NEAR(grid.reflectance[10 * side_px + 10][1] / grid.reflectance[11 * side_px + 10][1], 2, 0.05);
  EXPECT_LT(left / (sum - left), 1.35);
  EXPECT_GT(left / (sum - left), 1.0);
}

TEST(Night, NoSurfaceThrowsBackMoreThanItCan) {
  Photograph photograph = grey_photograph(10);
  for (std::uint32_t c = 0; c < 3; ++c) photograph.rgb[3 * 2080 + c] = 255;
  const NightGrid grid = whole_grid(photograph, wall_plate(0.6));
  for (const auto& rgb : grid.reflectance) {
    EXPECT_LE(luminance({rgb[0], rgb[1], rgb[2]}), 0.9001);
  }
}

TEST(Night, LeavesTakeHalfOfWhatFacesTheLamp) {
  NightPlate plate = wall_plate(0.2);
  plate.pieces[0].kind = NightPieceKind::foliage;
  const NightGrid grid = whole_grid(grey_photograph(120), plate);
  std::vector<float> layer;
  night_layer(grid, lamp_before_wall(), 0, layer);
  const std::size_t element = 20 * side_px + 50;
  const Point3 place = *site_from_pixel(plate.camera, {50.5, 20.5}, {0, 0, 0}, {0, -1, 0});
  const double r2 = (place.x_m - 1) * (place.x_m - 1) + 4 + (place.z_m - 3) * (place.z_m - 3);
  EXPECT_NEAR(layer[element], 0.5 * 100 / r2, 0.002 * 100 / r2);
}

TEST(Night, SkyThroughLeavesStaysSky) {
  NightPlate plate = wall_plate(0.2);
  NightPiece sky = plate.pieces[0];
  sky.kind = NightPieceKind::sky;
  NightPiece crown = plate.pieces[0];
  crown.kind = NightPieceKind::foliage;
  crown.outline = {{16, 16}, {48, 16}, {48, 48}, {16, 48}};
  plate.pieces = {sky, crown};
  Photograph photograph = grey_photograph(220);
  const auto paint = [&](std::uint32_t row, std::uint32_t column, std::uint8_t value) {
    for (std::uint32_t c = 0; c < 3; ++c) photograph.rgb[3 * (row * side_px + column) + c] = value;
  };
  for (std::uint32_t row = 16; row < 48; ++row) {
    for (std::uint32_t column = 16; column < 48; ++column) paint(row, column, 60);
  }
  paint(30, 30, 220);
  const DaylightReading reading = read_daylight(photograph, plate);
  EXPECT_EQ(reading.piece[30 * side_px + 30], 0);
  EXPECT_EQ(reading.piece[31 * side_px + 30], 1);
  EXPECT_EQ(reading.piece[5 * side_px + 5], 0);
}

TEST(Night, WhatNoPieceHoldsAndTheDarkTakeNoLampAndSkyIsFaint) {
  NightPlate plate = wall_plate(0.4);
  plate.pieces[0].outline = {{0, 0}, {32, 0}, {32, 64}, {0, 64}};
  NightPiece window = plate.pieces[0];
  window.kind = NightPieceKind::glow;
  window.luminance_cd_m2 = 30;
  window.outline = {{4, 4}, {8, 4}, {8, 8}, {4, 8}};
  NightPiece sky = plate.pieces[0];
  sky.kind = NightPieceKind::sky;
  sky.outline = {{40, 0}, {64, 0}, {64, 20}, {40, 20}};
  plate.pieces.push_back(window);
  plate.pieces.push_back(sky);
  const NightGrid grid = whole_grid(grey_photograph(120), plate);
  EXPECT_EQ(grid.receivers.size(), 32u * 64 - 16);
  const NightTone tone{.ambient_lx = 0.2, .white_k = 2700};
  std::vector<std::array<float, 3>> shown;
  show_night(grid, plate, {}, tone, shown);
  const auto y = [&](std::uint32_t row, std::uint32_t column) {
    const auto& rgb = shown[row * side_px + column];
    return luminance({rgb[0], rgb[1], rgb[2]});
  };
  EXPECT_NEAR(y(6, 6), 30, 0.01);
  // The wall sees half of the sky.
  EXPECT_NEAR(y(40, 10), 0.1 * 0.4 / std::numbers::pi, 1e-4);
  EXPECT_GT(y(10, 50), 0.5 * 0.2 / std::numbers::pi);
  EXPECT_LT(y(10, 50), 1.6 * 0.2 / std::numbers::pi);
  EXPECT_LT(y(50, 50), 0.1 * 0.36 / std::numbers::pi);
}

TEST(Night, BandsAreTheWholeInPieces) {
  Photograph photograph = grey_photograph(90);
  for (std::size_t i = 0; i < photograph.rgb.size(); i += 7) photograph.rgb[i] = 200;
  const NightPlate plate = wall_plate(0.4);
  const DaylightReading reading = read_daylight(photograph, plate);
  const NightGrid whole = night_grid(photograph, plate, reading, 0, side_px);
  const NightGrid band = night_grid(photograph, plate, reading, 24, 8);
  for (std::size_t i = 0; i < band.receivers.size(); i += 5) {
    EXPECT_EQ(band.receivers[i].position, whole.receivers[i + 24 * side_px].position);
    EXPECT_EQ(band.reflectance[i], whole.reflectance[i + 24 * side_px]);
  }
}

// The mean goes by 1/64 of a stop.
const double half_step = 1.01 * (std::exp2(1.0 / 128) - 1);

TEST(Night, ExposureComesFromTheMeanOfTheLogarithm) {
  const NightPlate plate = wall_plate(std::numbers::pi / 10);
  const NightGrid grid = whole_grid(grey_photograph(120), plate);
  std::vector<float> lx(grid.receivers.size(), 4);
  std::fill(lx.begin(), lx.begin() + static_cast<std::ptrdiff_t>(lx.size() / 2), 1.0F);
  std::vector<std::array<float, 3>> shown;
  const LogMean mean = show_night(grid, plate, {{}, lx, {}}, {.ambient_lx = 0}, shown);
  EXPECT_NEAR(mean.value_cd_m2(), 0.2, half_step * 0.2);
  EXPECT_GT(LogMean{}.value_cd_m2(), 0);
}

TEST(Night, WideDarkGroundHardlyChangesTheExposure) {
  const NightPlate plate = wall_plate(std::numbers::pi / 10);
  const NightGrid grid = whole_grid(grey_photograph(120), plate);
  std::vector<float> lx(grid.receivers.size(), 0.2F);
  std::fill(lx.begin(), lx.begin() + static_cast<std::ptrdiff_t>(lx.size() / 2), 20.0F);
  std::vector<std::array<float, 3>> shown;
  const LogMean mean = show_night(grid, plate, {{}, lx, {}}, {.ambient_lx = 0}, shown);
  // By hand: (ln 2 + 0.1 ln 0.02) / 1.1.
  const double by_hand_cd_m2 = std::exp((std::log(2) + 0.1 * std::log(0.02)) / 1.1);
  EXPECT_NEAR(mean.value_cd_m2(), by_hand_cd_m2, half_step * by_hand_cd_m2);
}

TEST(Night, PictureIsOpaqueAndBrighterWhereThereIsMoreLight) {
  const std::vector<std::array<float, 3>> luminance{{0, 0, 0}, {0.1F, 0.1F, 0.1F}, {1, 1, 1}, {10, 8, 4}};
  std::vector<std::uint8_t> rgba(16);
  develop(luminance, {.camera_share = 0.5}, 0.2, rgba);
  EXPECT_EQ(rgba[0], 0);
  EXPECT_LT(rgba[0], rgba[4]);
  EXPECT_LT(rgba[4], rgba[8]);
  EXPECT_LT(rgba[8], rgba[12]);
  EXPECT_GT(rgba[12], rgba[14]);
  for (std::size_t i = 3; i < rgba.size(); i += 4) EXPECT_EQ(rgba[i], 255);
}

}  // namespace
}  // namespace duskwire::light
