// SPDX-License-Identifier: Apache-2.0
// The night view of a photograph: each picture element gets a place, a facing and a reflectance; each lamp its own
// layer of light; layers are linear, so that switching, dimming and colour are sums. Luminance of a matt surface:
// L = E * rho / pi. Everything here runs on one thread; whoever has more hands out bands of rows.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "geometry/pixel.hpp"
#include "light/camera.hpp"
#include "light/illuminance.hpp"
#include "light/tone.hpp"

namespace duskwire::light {

// 8-bit sRGB, rows from the top.
struct Photograph {
  std::uint32_t width_px = 0;
  std::uint32_t height_px = 0;
  std::vector<std::uint8_t> rgb;
};

enum class NightPieceKind : std::uint8_t {
  matt,     // a plane that takes light
  foliage,  // an upright cut-out whose leaves face every way
  sky,      // lit by nothing; glows faintly
  glow,     // a window: has a light of its own
  dark      // of unknown place: no lamp lights it
};

// A piece of the picture.
struct NightPiece {
  NightPieceKind kind = NightPieceKind::matt;
  geometry::PixelOutline outline;
  geometry::Point3 on_plane;       // matt and foliage
  geometry::Vec3 normal{0, 0, 1};  // to the lit side, of unit length
  double reflectance = 0.3;        // mean over its piece of the photograph
  double luminance_cd_m2 = 0;      // glow; sky: 0 stands for what the ambient light gives
  double colour_temperature_k = 2700;

  bool operator==(const NightPiece&) const = default;
};

// Later pieces lie in front of earlier ones.
struct NightPlate {
  Camera camera;
  std::vector<NightPiece> pieces;

  bool operator==(const NightPlate&) const = default;
};

inline constexpr std::uint16_t no_piece = 0xffff;

// What daylight tells: which piece each element shows, and how its pixels become reflectances.
struct DaylightReading {
  // Of one piece: reflectance = pixel * scale / shade at the place, for linear pixels. The shade is a coarse map over
  // the piece's bounding box.
  struct Piece {
    double scale = 1;
    double from_x_px = 0;
    double from_y_px = 0;
    double cell_px = 1;
    std::uint32_t columns = 0;
    std::uint32_t rows = 0;
    std::vector<float> shade;
  };
  std::vector<std::uint16_t> piece;  // per element
  std::vector<Piece> pieces;
};

// Bilinear between the cells' middles.
[[nodiscard]] double shade_at(const DaylightReading::Piece& piece, double x_px, double y_px);

[[nodiscard]] DaylightReading read_daylight(const Photograph& photograph, const NightPlate& plate);

// A band of rows of the picture: where its elements lie and what they throw back.
struct NightGrid {
  std::uint32_t width_px = 0;
  std::uint32_t from_row = 0;
  std::uint32_t row_count = 0;
  std::vector<Receiver> receivers;                // one per element that takes light; leaves turn to each lamp
  std::vector<ReceiverBlock> blocks;              // the same receivers, as lamps read them
  std::vector<std::uint32_t> element;             // which one it is, counted from the band's first
  std::vector<std::uint8_t> is_foliage;           // per receiver
  std::vector<std::array<float, 3>> reflectance;  // per element of the band, linear RGB; of sky and glow its pattern
  std::vector<float> ambient_share;               // per element: of the light on level ground, what reaches it
  std::vector<std::uint16_t> piece;               // per element
};

[[nodiscard]] NightGrid night_grid(const Photograph& photograph, const NightPlate& plate,
                                   const DaylightReading& reading, std::uint32_t from_row, std::uint32_t row_count);

// One lamp's light on each receiver, in lx, at its full light: the scene's own `share` of that lamp is left out.
// Foliage takes half of what a leaf square to the light would: the mean of |cos| over leaves that face every way.
void night_layer(const NightGrid& grid, const LitScene& scene, std::uint32_t lamp, std::vector<float>& out_lx,
                 const Care& care = {});

struct LampState {
  double share = 1;  // switched, dimmed, and what its volts leave
  double colour_temperature_k = 2700;

  bool operator==(const LampState&) const = default;
};

// Adds a layer to the light of its colour.
void add_layer(std::span<const float> layer_lx, float share, std::span<float> sum_lx);

// The light of all lamps of one colour.
struct ColouredLight {
  double colour_temperature_k = 2700;
  std::vector<float> lx;  // per receiver
};

// Same colours together; layers of lamps that are off are not read, nor empty ones: those of lamps that light nothing.
[[nodiscard]] std::vector<ColouredLight> sum_by_colour(std::span<const std::vector<float>> layers_lx,
                                                       std::span<const LampState> states);

// A lamp that a hand is at, kept apart from the sums.
struct LampInHand {
  std::span<const float> layer_lx;  // empty: there is none, or it lights nothing
  LampState state;
};

// The light of a picture, per receiver.
struct NightLight {
  std::vector<ColouredLight> by_colour;  // as the lamps are now
  std::vector<float> all_lx;             // every lamp at its full light; empty where there is none
  LampInHand hand;                       // to be added to both
};

// What exposure is found from: the mean of the logarithm of what the receivers show with every lamp at full light, so
// that the picture gets darker when lamps are dimmed. What lamps leave dark counts little: it is the lit garden that is
// looked at, however much dark ground the photograph holds. Sums of bands may be added. The mean goes by steps of 1/64
// of a stop: nobody sees one, and a lamp that is dragged leaves the rest of the picture as it is.
struct LogMean {
  double sum = 0;
  double weight = 0;
  [[nodiscard]] double value_cd_m2() const;
};

// What the elements of a band show, in cd/m2 as linear sRGB, lamps and ambient light together.
LogMean show_night(const NightGrid& grid, const NightPlate& plate, const NightLight& light, const NightTone& tone,
                   std::vector<std::array<float, 3>>& out_cd_m2);

// Receivers that follow one another in the picture, gone over together, and their part of the mean when last shown.
struct NightStrip {
  std::uint32_t receiver = 0;  // the first
  std::uint32_t element = 0;   // of the first
  std::uint32_t count = 0;
  LogMean mean;
};
[[nodiscard]] std::vector<NightStrip> strips_of(const NightGrid& grid);

// As show_night, keeping what the strips showed.
LogMean show_all_strips(const NightGrid& grid, const NightPlate& plate, const NightLight& light, const NightTone& tone,
                        std::vector<NightStrip>& strips, std::vector<std::array<float, 3>>& out_cd_m2);

// Shows some strips anew; all others, and what takes no light, stay as last shown: for a light that differs there
// alone.
LogMean show_strips(const NightGrid& grid, const NightPlate& plate, const NightLight& light, const NightTone& tone,
                    std::span<const std::uint32_t> which, std::vector<NightStrip>& strips,
                    std::vector<std::array<float, 3>>& out_cd_m2);

// Luminances as 8-bit RGBA.
void develop(std::span<const std::array<float, 3>> luminance_cd_m2, const NightTone& tone, double adaptation_cd_m2,
             std::span<std::uint8_t> rgba);

}  // namespace duskwire::light
