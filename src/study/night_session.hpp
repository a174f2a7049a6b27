// SPDX-License-Identifier: Apache-2.0
// The night of one photograph while a job is being edited: keeps the photograph's reading and each lamp's layer, and
// calculates anew only what an edit has touched. One thread.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "job/job.hpp"
#include "light/night.hpp"
#include "light/night_sums.hpp"
#include "study/night_view.hpp"

namespace duskwire::study {

// What is tried on a lamp without writing it into the job.
struct LampTrial {
  std::string id;
  std::optional<double> share;  // on top of what the job says; 0 is off
  std::optional<double> colour_temperature_k;
};

// How the night is shown where it differs from what the view says.
struct NightWish {
  std::string view;
  std::optional<double> camera_share;
  std::optional<double> exposure_stops;
  std::optional<double> ambient_lx;
  std::optional<double> white_k;
  std::vector<LampTrial> lamps;
};

// The view's look with the wish over it; the states of the lamps likewise.
void apply(const NightWish& wish, NightView& view);

struct NightFacts {
  std::uint32_t width_px = 0;
  std::uint32_t height_px = 0;
  double adaptation_cd_m2 = 0;
  double lit_share = 0;  // of the picture: what takes light from lamps
  struct Lamp {
    std::string id;
    std::string name;
    double share = 0;
    double colour_temperature_k = 0;
    bool is_in_picture = false;
  };
  std::vector<Lamp> lamps;
  std::vector<std::string> assumptions;
  std::vector<std::string> remarks;
  std::vector<std::string> recomputed;  // ids of lamps
};

struct NightProbe {
  std::string piece;  // id of the surface, tree or mask; empty where there is none
  std::optional<double> lux;
  double cd_m2 = 0;
  std::optional<double> reflectance;
  std::optional<geometry::Point3> site;
  struct Part {
    std::string id;
    double lux = 0;
  };
  std::vector<Part> lamps;  // brightest first, without those that give less than a hundredth
};

class NightSession {
 public:
  // Forgets what was calculated for the one before.
  void give(light::Photograph photograph);

  // Errors as night_view, and not_found where no photograph was given.
  Result<NightFacts> picture(const job::Job& job, const NightWish& wish);

  // RGBA of the last picture.
  [[nodiscard]] const std::vector<std::uint8_t>& rgba() const { return rgba_; }

  // Of the last picture. Errors: not_found before the first one, invalid outside of it.
  [[nodiscard]] Result<NightProbe> probe(double x_px, double y_px) const;

 private:
  void refresh_grid(const NightView* before);
  std::vector<std::string> refresh_layers(const NightView* before);
  bool refresh_sums(const NightView* before, const std::vector<std::string>& recomputed);
  void refresh_picture(bool is_hand_alone);
  [[nodiscard]] std::vector<std::uint32_t> strips_of_hand() const;
  [[nodiscard]] NightFacts facts(std::vector<std::string> recomputed, double adaptation_cd_m2) const;

  light::Photograph photograph_;
  std::optional<NightView> view_;
  std::optional<light::LitScene> scene_;
  light::NightGrid grid_;
  bool grid_is_new_ = false;
  // Of each lamp at its full light: on each receiver, and the most on any; a lamp that lights nothing has no layer.
  std::vector<std::vector<float>> layers_lx_;
  std::vector<float> peaks_lx_;
  std::vector<float> moved_lx_;  // of the one lamp that was calculated anew: its layer before
  light::NightSums sums_;
  std::vector<light::NightStrip> strips_;
  std::vector<std::array<float, 3>> luminance_cd_m2_;
  double adapted_cd_m2_ = 0;  // what rgba_ is developed for
  std::vector<std::uint8_t> rgba_;
};

}  // namespace duskwire::study
