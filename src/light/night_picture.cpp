// SPDX-License-Identifier: Apache-2.0
// From light to a picture: luminance of each element, exposure, and the bytes of a display. The picture is gone over
// once, in stretches that stay in the processor's cache, by plain loops over arrays that compilers make vectors of.
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

Colour colour_times(double temperature_k, double white_k, double factor) {
  const LinearRgb colour = light_colour(temperature_k, white_k);
  Colour out{};
  for (std::size_t c = 0; c < 3; ++c) out[c] = static_cast<float>(colour[c] * factor);
  return out;
}

constexpr Colour weights{static_cast<float>(luminance_weights[0]), static_cast<float>(luminance_weights[1]),
                         static_cast<float>(luminance_weights[2])};

float luminance_of(const Colour& rgb) { return weights[0] * rgb[0] + weights[1] * rgb[1] + weights[2] * rgb[2]; }

// Dark adaptation ends somewhere: without this, one black element would count as much as a thousand lit ones.
constexpr float least_adaptation_cd_m2 = 0.01F;

// From this on lamps light an element; the others count with this weight (own choice).
constexpr float lit_lx = 0.5F;
constexpr float dark_weight = 0.1F;

constexpr double steps_per_stop = 64;

constexpr float one_over_pi = static_cast<float>(1 / std::numbers::pi);
constexpr std::size_t stretch = 1024;

class Shower {
 public:
  Shower(const NightGrid& grid, const NightPlate& plate, const NightLight& light, const NightTone& tone,
         std::vector<Colour>& out)
      : grid_(grid), light_(light), ambient_lx_(static_cast<float>(tone.ambient_lx)), out_(out) {
    ambient_ = colour_times(ambient_k, tone.white_k, tone.ambient_lx / std::numbers::pi);
    for (const NightPiece& piece : plate.pieces) {
      const bool shines = piece.luminance_cd_m2 > 0;
      glows_.push_back(piece.kind == NightPieceKind::glow || (piece.kind == NightPieceKind::sky && shines) ? 1 : 0);
      glow_.push_back(shines ? colour_times(piece.colour_temperature_k, tone.white_k, piece.luminance_cd_m2)
                             : Colour{});
    }
    add_hand(tone.white_k);
    for (const ColouredLight& one : light.by_colour) {
      colours_.push_back(colour_times(one.colour_temperature_k, tone.white_k, 1 / std::numbers::pi));
    }
  }

  void show_strip(NightStrip& strip) {
    show_lit(strip.receiver, strip.count);
    strip.mean = mean_;
  }

  // What no lamp reaches: sky, glowing windows, what lies nowhere known.
  void show_unlit(std::size_t from, std::size_t to) {
    for (std::size_t i = from; i < to; ++i) {
      const Colour& reflectance = grid_.reflectance[i];
      const std::uint16_t piece = grid_.piece[i];
      if (piece != no_piece && glows_[piece] != 0) {
        for (std::size_t c = 0; c < 3; ++c) out_[i][c] = glow_[piece][c] * reflectance[c];
      } else {
        const float share = grid_.ambient_share[i];
        for (std::size_t c = 0; c < 3; ++c) out_[i][c] = share * ambient_[c] * reflectance[c];
      }
    }
  }

 private:
  void add_hand(double white_k) {
    if (light_.hand.layer_lx.empty()) return;
    hand_lx_ = light_.hand.layer_lx.data();
    hand_ = colour_times(light_.hand.state.colour_temperature_k, white_k, light_.hand.state.share / std::numbers::pi);
  }

  // `count` receivers from `first` on, whose elements follow one another.
  void show_lit(std::size_t first, std::size_t count) {
    const std::size_t element = grid_.element[first];
    const float* share = grid_.ambient_share.data() + element;
    const Colour* reflectance = grid_.reflectance.data() + element;
    for (std::size_t c = 0; c < 3; ++c) {
      float* part = rgb_[c];
      const float ambient = ambient_[c];
      for (std::size_t k = 0; k < count; ++k) part[k] = share[k] * ambient;
      for (std::size_t l = 0; l < colours_.size(); ++l)
        add(light_.by_colour[l].lx.data() + first, colours_[l][c], part, count);
      if (hand_lx_ != nullptr) add(hand_lx_ + first, hand_[c], part, count);
    }
    Colour* out = out_.data() + element;
    for (std::size_t k = 0; k < count; ++k) {
      out[k] = {rgb_[0][k] * reflectance[k][0], rgb_[1][k] * reflectance[k][1], rgb_[2][k] * reflectance[k][2]};
    }
    for (std::size_t k = 0; k < count; ++k) y_[k] = luminance_of(reflectance[k]);
    add_to_mean(first, share, count);
  }

  static void add(const float* lx, float factor, float* sum, std::size_t count) {
    for (std::size_t k = 0; k < count; ++k) sum[k] += factor * lx[k];
  }

  void add_to_mean(std::size_t first, const float* share, std::size_t count) {
    std::fill_n(lamps_lx_, count, 0.0F);
    if (!light_.all_lx.empty()) add(light_.all_lx.data() + first, 1, lamps_lx_, count);
    if (hand_lx_ != nullptr) add(hand_lx_ + first, 1, lamps_lx_, count);
    for (std::size_t k = 0; k < count; ++k) {
      const float lx = lamps_lx_[k] + ambient_lx_ * share[k];
      const float cd_m2 = std::max(least_adaptation_cd_m2, lx * y_[k] * one_over_pi);
      const float weight = lamps_lx_[k] >= lit_lx ? 1 : dark_weight;
      logs_[k] = weight * quick_log(cd_m2);
      weights_[k] = weight;
    }
    mean_ = {sum_of(logs_, count), sum_of(weights_, count)};
  }

  // Eight sums side by side: the compiler may not reorder one.
  static double sum_of(const float* numbers, std::size_t count) {
    constexpr std::size_t lanes = 8;
    std::array<float, lanes> sums{};
    std::size_t k = 0;
    for (; k + lanes <= count; k += lanes) {
      for (std::size_t lane = 0; lane < lanes; ++lane) sums[lane] += numbers[k + lane];
    }
    double sum = 0;
    for (const float one : sums) sum += double{one};
    for (; k < count; ++k) sum += double{numbers[k]};
    return sum;
  }

  const NightGrid& grid_;
  const NightLight& light_;
  float ambient_lx_;
  std::vector<Colour>& out_;
  Colour ambient_{};
  std::vector<std::uint8_t> glows_;  // per piece
  std::vector<Colour> glow_;
  std::vector<Colour> colours_;
  const float* hand_lx_ = nullptr;
  Colour hand_{};
  LogMean mean_;  // of the strip last shown
  alignas(64) float rgb_[3][stretch];
  alignas(64) float y_[stretch];
  alignas(64) float lamps_lx_[stretch];
  alignas(64) float logs_[stretch];
  alignas(64) float weights_[stretch];
};

LogMean mean_of(std::span<const NightStrip> strips) {
  LogMean mean;
  for (const NightStrip& strip : strips) {
    mean.sum += strip.mean.sum;
    mean.weight += strip.mean.weight;
  }
  return mean;
}

}  // namespace

std::vector<NightStrip> strips_of(const NightGrid& grid) {
  std::vector<NightStrip> strips;
  const std::size_t receivers = grid.element.size();
  for (std::size_t i = 0; i < receivers;) {
    std::size_t end = i + 1;
    while (end < receivers && end - i < stretch && grid.element[end] == grid.element[end - 1] + 1) ++end;
    strips.push_back({static_cast<std::uint32_t>(i), grid.element[i], static_cast<std::uint32_t>(end - i), {}});
    i = end;
  }
  return strips;
}

LogMean show_all_strips(const NightGrid& grid, const NightPlate& plate, const NightLight& light, const NightTone& tone,
                        std::vector<NightStrip>& strips, std::vector<Colour>& out_cd_m2) {
  out_cd_m2.resize(grid.reflectance.size());
  Shower shower(grid, plate, light, tone, out_cd_m2);
  std::size_t next = 0;  // element
  for (NightStrip& strip : strips) {
    shower.show_unlit(next, strip.element);
    shower.show_strip(strip);
    next = std::size_t{strip.element} + strip.count;
  }
  shower.show_unlit(next, out_cd_m2.size());
  return mean_of(strips);
}

LogMean show_strips(const NightGrid& grid, const NightPlate& plate, const NightLight& light, const NightTone& tone,
                    std::span<const std::uint32_t> which, std::vector<NightStrip>& strips,
                    std::vector<Colour>& out_cd_m2) {
  Shower shower(grid, plate, light, tone, out_cd_m2);
  for (const std::uint32_t strip : which) shower.show_strip(strips[strip]);
  return mean_of(strips);
}

LogMean show_night(const NightGrid& grid, const NightPlate& plate, const NightLight& light, const NightTone& tone,
                   std::vector<Colour>& out_cd_m2) {
  std::vector<NightStrip> strips = strips_of(grid);
  return show_all_strips(grid, plate, light, tone, strips, out_cd_m2);
}

double LogMean::value_cd_m2() const {
  const double least = double{least_adaptation_cd_m2};
  if (!(weight > 0)) return least;
  const double stops = sum / weight / std::numbers::ln2;
  return std::max(least, std::exp2(std::round(steps_per_stop * stops) / steps_per_stop));
}

namespace {

// A stretch of the picture, part by part.
struct Developing {
  alignas(64) float part[3][stretch];
  alignas(64) std::int32_t index[3][stretch];

  void take(const Colour* luminance_cd_m2, std::size_t count) {
    for (std::size_t k = 0; k < count; ++k) {
      for (std::size_t c = 0; c < 3; ++c) part[c][k] = luminance_cd_m2[k][c];
    }
  }

  // Towards grey, as the eye loses colour in the dark.
  void fade(float camera_share, std::size_t count) {
    for (std::size_t k = 0; k < count; ++k) {
      const float y = weights[0] * part[0][k] + weights[1] * part[1][k] + weights[2] * part[2][k];
      const float kept = colour_kept(y, camera_share);
      for (std::size_t c = 0; c < 3; ++c) part[c][k] = y + kept * (part[c][k] - y);
    }
  }

  void expose(float exposure, std::size_t count) {
    for (std::size_t c = 0; c < 3; ++c) {
      for (std::size_t k = 0; k < count; ++k) index[c][k] = ToneTable::index(part[c][k] * exposure);
    }
  }

  void write(const std::uint8_t* bytes, std::uint8_t* rgba, std::size_t count) const {
    for (std::size_t k = 0; k < count; ++k) {
      for (std::size_t c = 0; c < 3; ++c) rgba[4 * k + c] = bytes[index[c][k]];
      rgba[4 * k + 3] = 255;
    }
  }
};

}  // namespace

void develop(std::span<const Colour> luminance_cd_m2, const NightTone& tone, double adaptation_cd_m2,
             std::span<std::uint8_t> rgba) {
  static const ToneTable table;
  const auto exposure = static_cast<float>(exposure_per_cd_m2(tone, adaptation_cd_m2));
  const auto camera_share = static_cast<float>(tone.camera_share);
  const std::size_t elements = std::min(luminance_cd_m2.size(), rgba.size() / 4);
  Developing part;
  for (std::size_t first = 0; first < elements; first += stretch) {
    const std::size_t count = std::min(stretch, elements - first);
    part.take(luminance_cd_m2.data() + first, count);
    if (camera_share < 1) part.fade(camera_share, count);
    part.expose(exposure, count);
    part.write(table.bytes(), rgba.data() + 4 * first, count);
  }
}

}  // namespace duskwire::light
