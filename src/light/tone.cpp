// SPDX-License-Identifier: Apache-2.0
#include "light/tone.hpp"

#include <algorithm>
#include <cmath>

#include "light/colour.hpp"

namespace duskwire::light {
namespace {

// Brightest white of an ordinary display, cd/m2 (the sRGB reference has 80; own choice).
constexpr double display_white_cd_m2 = 100;

// Where a camera puts the mean: a good half stop under middle grey, so that night stays night (own choice).
constexpr double mean_grey = 0.12;

// What becomes the display's white, in exposed units: lit walls keep their drawing (own choice).
constexpr double white_at = 14;

// Threshold-versus-intensity after Blackwell as fitted by G. Ward, "A contrast-based scalefactor for luminance
// display", Graphics Gems IV (1994), eq. for the smallest difference seen (from memory).
double just_seen(double adaptation_cd_m2) { return std::pow(1.219 + std::pow(adaptation_cd_m2, 0.4), 2.5); }

// The same contrast is just seen on the display as in the garden.
double eye_exposure(double adaptation_cd_m2) {
  return just_seen(display_white_cd_m2 / 2) / just_seen(adaptation_cd_m2) / display_white_cd_m2;
}

double camera_exposure(double adaptation_cd_m2) { return mean_grey / adaptation_cd_m2; }

}  // namespace

double exposure_per_cd_m2(const NightTone& tone, double adaptation_cd_m2) {
  const double share = std::clamp(tone.camera_share, 0.0, 1.0);
  const double eye = std::log(eye_exposure(adaptation_cd_m2));
  const double camera = std::log(camera_exposure(adaptation_cd_m2));
  return std::exp((1 - share) * eye + share * camera + tone.exposure_stops * std::log(2.0));
}

// Reinhard, Stark, Shirley, Ferwerda, "Photographic tone reproduction for digital images" (2002), eq. 4.
double curve(double exposed) {
  if (!(exposed > 0)) return 0;
  return std::min(1.0, exposed * (1 + exposed / (white_at * white_at)) / (1 + exposed));
}

ToneTable::ToneTable() : bytes_(static_cast<std::size_t>(entries)) {
  for (std::int32_t i = 1; i < entries; ++i) {
    // The middle of the step.
    const double exposed = 0.5 * (double{at_index(i)} + double{at_index(i + 1)});
    bytes_[static_cast<std::size_t>(i)] = static_cast<std::uint8_t>(std::lround(255 * srgb_encoded(curve(exposed))));
  }
}

}  // namespace duskwire::light
