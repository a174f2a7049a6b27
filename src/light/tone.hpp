// SPDX-License-Identifier: Apache-2.0
// From luminance to what a display shows: one curve for the whole picture, rising all the way. docs/algorithms/night.md
// tells where each step is from.
#pragma once

#include <algorithm>
#include <cstdint>
#include <vector>

#include "light/quick_log.hpp"

namespace duskwire::light {

struct NightTone {
  double camera_share = 0.5;  // 0: as the adapted eye sees it, 1: as a camera would expose it
  double exposure_stops = 0;
  double ambient_lx = 0.1;  // moon and sky on level ground
  double white_k = 3200;    // light of this colour looks white

  bool operator==(const NightTone&) const = default;
};

// What a luminance of 1 cd/m2 becomes before the curve; 1 is the display's white without it.
[[nodiscard]] double exposure_per_cd_m2(const NightTone& tone, double adaptation_cd_m2);

// 0 to 1: a shoulder, so that bright places keep their drawing. `exposed`: luminance times exposure.
[[nodiscard]] double curve(double exposed);

// How much of its colour a luminance keeps: all of it for a camera, less for an eye in the dark. Within 1e-5.
[[nodiscard]] inline float colour_kept(float luminance_cd_m2, float camera_share) {
  // Rods and cones together: from 0.005 to 5 cd/m2 (CIE 191:2010, from memory).
  constexpr float rods_only_ln = -5.2983174F;
  constexpr float octaves_ln = 6.9077553F;
  const float cones = (quick_log(std::max(0.0F, luminance_cd_m2)) - rods_only_ln) / octaves_ln;
  return 1 - (1 - std::clamp(camera_share, 0.0F, 1.0F)) * (1 - std::clamp(cones, 0.0F, 1.0F));
}

// curve() as 8-bit sRGB by a table: within one step of the exact value, and rising.
class ToneTable {
 public:
  ToneTable();

  // Octaves of the exposed value, each in equal steps: what of its bits tells which entry it has. Below the table the
  // first, which is black; above it the last.
  [[nodiscard]] static std::int32_t index(float exposed) {
    const float shown = exposed > 0 ? exposed : 0;
    const std::int32_t at = (__builtin_bit_cast(std::int32_t, shown) >> (23 - bits_in_octave)) - first_index;
    return at < 0 ? 0 : (at < entries ? at : entries - 1);
  }
  [[nodiscard]] const std::uint8_t* bytes() const { return bytes_.data(); }
  [[nodiscard]] std::uint8_t operator()(float exposed) const {
    return bytes_[static_cast<std::size_t>(index(exposed))];
  }

 private:
  static constexpr std::int32_t lowest_octave = -14;
  static constexpr std::int32_t octaves = 20;
  static constexpr std::int32_t bits_in_octave = 8;
  static constexpr std::int32_t entries = octaves << bits_in_octave;
  static constexpr std::int32_t first_index = (127 + lowest_octave) << bits_in_octave;

  // The least value of an entry. The compilers' own word for std::bit_cast, which the library of Debian's emscripten
  // has not yet.
  static float at_index(std::int32_t index) {
    return __builtin_bit_cast(float, (first_index + index) << (23 - bits_in_octave));
  }

  std::vector<std::uint8_t> bytes_;
};

}  // namespace duskwire::light
