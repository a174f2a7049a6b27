// SPDX-License-Identifier: Apache-2.0
// The night view of a photograph: each picture element gets a place, a facing and a reflectance; each lamp its own
// layer of light; layers are linear, so that switching, dimming and colour are sums. Luminance of a matt surface:
// L = E * rho / pi.
#pragma once

#include <array>
#include <cstdint>
#include <functional>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "geometry/pixel.hpp"
#include "light/camera.hpp"
#include "light/illuminance.hpp"

namespace duskwire::light {

// 8-bit sRGB, rows from the top.
struct Photograph {
  std::uint32_t width_px = 0;
  std::uint32_t height_px = 0;
  std::vector<std::uint8_t> rgb;
};

// A plane piece of the picture. Later ones lie in front of earlier ones.
struct NightSurface {
  geometry::PixelOutline outline;
  geometry::Point3 on_plane;
  geometry::Vec3 normal;
  double reflectance = 0.3;  // mean over its piece of the photograph
  double translucence = 0;   // foliage: share of the light from behind that shows in front
};

struct NightMask {
  geometry::PixelOutline outline;
  double luminance_cd_m2 = 0;
  double colour_temperature_k = 2700;
};

struct NightPlate {
  Camera camera;
  std::vector<NightSurface> surfaces;
  std::vector<NightMask> masks;
};

// Where each picture element lies. Same order as the photograph's elements; those without a surface have `lit` 0.
struct NightGrid {
  std::uint32_t width_px = 0;
  std::uint32_t height_px = 0;
  std::vector<Receiver> receivers;                // one per lit element
  std::vector<std::uint32_t> element;             // which element it is
  std::vector<std::array<float, 3>> reflectance;  // per lit element, linear RGB, 0..1
  std::vector<std::array<float, 3>> own_cd_m2;    // per element: what glows by itself or by the sky
};

// What each lamp does to each lit element: layers[lamp][lit element], lx at full share.
struct NightLayers {
  std::vector<std::vector<float>> lx;
};

struct LampState {
  double share = 1;  // switched, dimmed, and what its volts leave
  double colour_temperature_k = 2700;
};

struct NightTone {
  double camera_share = 0.5;
  double exposure_stops = 0;
  double ambient_lx = 0.1;
  double white_k = 3200;
};

// Prepares the elements of a photograph at the size given (shrunk by area where it is smaller).
[[nodiscard]] NightGrid night_grid(const Photograph& photograph, const NightPlate& plate);

// One lamp's layer; the scene's own `share` of that lamp is left out (a layer is at full light).
void night_layer(const NightGrid& grid, const LitScene& scene, std::uint32_t lamp, std::vector<float>& out_lx);

// The picture for the states given, one per layer: 8-bit RGBA, rows from the top.
void night_picture(const NightGrid& grid, const NightLayers& layers, std::span<const LampState> states,
                   const NightTone& tone, std::vector<std::uint8_t>& rgba);

}  // namespace duskwire::light
