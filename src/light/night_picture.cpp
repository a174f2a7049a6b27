// SPDX-License-Identifier: Apache-2.0
// From light to a picture: luminance of each element, exposure, and the bytes of a display.
#include <algorithm>
#include <cmath>
#include <numbers>

#include "light/colour.hpp"
#include "light/night.hpp"
#include "light/quick_log.hpp"

namespace duskwire::light {
namespace {

// Moon and sky: daylight's colour at this temperature, so that it looks blue beside warm lamps (own choice).
constexpr double ambient_k = 5000;

using Colour = std::array<float, 3>;

Colour colour_over_pi(double temperature_k, double white_k) {
  const LinearRgb colour = light_colour(temperature_k, white_k);
  Colour out{};
  for (std::size_t c = 0; c < 3; ++c) out[c] = static_cast<float>(colour[c] / std::numbers::pi);
  return out;
}

// What needs no lamp: ambient light on everything, the sky, and what glows.
void ambient_luminance(const NightGrid& grid, const NightPlate& plate, const NightTone& tone,
                       std::vector<Colour>& out) {
  const Colour ambient = colour_over_pi(ambient_k, tone.white_k);
  std::vector<Colour> glow(plate.pieces.size());
  for (std::size_t k = 0; k < glow.size(); ++k) {
    const NightPiece& piece = plate.pieces[k];
    if (!(piece.luminance_cd_m2 > 0)) continue;
    const LinearRgb colour = light_colour(piece.colour_temperature_k, tone.white_k);
    for (std::size_t c = 0; c < 3; ++c) glow[k][c] = static_cast<float>(piece.luminance_cd_m2 * colour[c]);
  }
  for (std::size_t i = 0; i < out.size(); ++i) {
    const Colour& reflectance = grid.reflectance[i];
    const std::uint16_t piece = grid.piece[i];
    const NightPieceKind kind = piece == no_piece ? NightPieceKind::matt : plate.pieces[piece].kind;
    const bool glows =
        kind == NightPieceKind::glow || (kind == NightPieceKind::sky && plate.pieces[piece].luminance_cd_m2 > 0);
    const auto ambient_lx = static_cast<float>(tone.ambient_lx) * grid.ambient_share[i];
    for (std::size_t c = 0; c < 3; ++c) {
      out[i][c] = glows ? glow[piece][c] * reflectance[c] : ambient_lx * ambient[c] * reflectance[c];
    }
  }
}

// Dark adaptation ends somewhere: without this, one black element would count as much as a thousand lit ones.
constexpr double least_adaptation_cd_m2 = 0.01;

// From this on lamps light an element; the others count with this weight (own choice).
constexpr float lit_lx = 0.5F;
constexpr double dark_weight = 0.1;

}  // namespace

void night_luminance(const NightGrid& grid, const NightPlate& plate, std::span<const ColouredLight> lights,
                     const NightTone& tone, std::vector<Colour>& out_cd_m2) {
  out_cd_m2.resize(grid.reflectance.size());
  ambient_luminance(grid, plate, tone, out_cd_m2);
  for (const ColouredLight& light : lights) {
    const Colour colour = colour_over_pi(light.colour_temperature_k, tone.white_k);
    for (std::size_t i = 0; i < grid.element.size(); ++i) {
      const std::uint32_t element = grid.element[i];
      const Colour& reflectance = grid.reflectance[element];
      Colour& out = out_cd_m2[element];
      for (std::size_t c = 0; c < 3; ++c) out[c] += light.lx[i] * colour[c] * reflectance[c];
    }
  }
}

double LogMean::value_cd_m2() const {
  return weight > 0 ? std::max(least_adaptation_cd_m2, std::exp(sum / weight)) : least_adaptation_cd_m2;
}

void add_to_log_mean(const NightGrid& grid, std::span<const float> all_lx, double ambient_lx, LogMean& mean) {
  for (std::size_t i = 0; i < grid.element.size(); ++i) {
    const std::uint32_t element = grid.element[i];
    const auto& rgb = grid.reflectance[element];
    const double reflectance = luminance({rgb[0], rgb[1], rgb[2]});
    const double lx = all_lx[i] + ambient_lx * grid.ambient_share[element];
    const double weight = all_lx[i] >= lit_lx ? 1 : dark_weight;
    const double cd_m2 = std::max(least_adaptation_cd_m2, lx * reflectance / std::numbers::pi);
    mean.sum += weight * quick_log(static_cast<float>(cd_m2));
    mean.weight += weight;
  }
}

void develop(std::span<const Colour> luminance_cd_m2, const NightTone& tone, double adaptation_cd_m2,
             std::span<std::uint8_t> rgba) {
  static const ToneTable table;
  const auto exposure = static_cast<float>(exposure_per_cd_m2(tone, adaptation_cd_m2));
  const auto camera_share = static_cast<float>(tone.camera_share);
  const bool is_camera = camera_share >= 1;
  for (std::size_t i = 0; i < luminance_cd_m2.size() && 4 * i + 3 < rgba.size(); ++i) {
    Colour rgb = luminance_cd_m2[i];
    if (!is_camera) {
      const auto y = static_cast<float>(luminance({rgb[0], rgb[1], rgb[2]}));
      const float kept = colour_kept(y, camera_share);
      for (float& part : rgb) part = y + kept * (part - y);
    }
    for (std::size_t c = 0; c < 3; ++c) rgba[4 * i + c] = table(rgb[c] * exposure);
    rgba[4 * i + 3] = 255;
  }
}

}  // namespace duskwire::light
