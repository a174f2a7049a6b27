// SPDX-License-Identifier: Apache-2.0
// The night of a photograph as a problem for the light room: camera, pieces of the picture, lamps and their state, out
// of a job and one of its views.
#pragma once

#include <cstdint>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"
#include "geometry/ray_caster.hpp"
#include "job/job.hpp"
#include "light/illuminance.hpp"
#include "light/night.hpp"

namespace duskwire::study {

struct NightLamp {
  std::string id;
  std::string name;

  bool operator==(const NightLamp&) const = default;
};

struct NightView {
  std::string view;                // its id
  light::NightPlate plate;         // for the picture size asked for
  std::vector<std::string> ids;    // of each piece
  std::vector<std::string> names;  // of each piece, for a person
  light::Scene scene;              // every lamp at its full light
  std::shared_ptr<const geometry::RayCaster> caster;
  std::vector<NightLamp> lamps;          // one per lamp of the scene
  std::vector<light::LampState> states;  // as the job has them: dimmed, and on the volts that the wiring leaves
  light::NightTone tone;
  light::Care care;
  double residual_px = 0;                // of the camera
  std::vector<std::string> assumptions;  // a sentence each, for the caption
  std::vector<std::string> remarks;      // what a person should look at
};

// Errors: not_found (no such view), invalid (it is not calibrated, or has no surface; the message says what to mark).
// `before`: a night of the same job, whose caster is taken over where the same things stand in the way.
[[nodiscard]] Result<NightView> night_view(const job::Job& job, std::string_view view, std::uint32_t width_px,
                                           std::uint32_t height_px, const NightView* before = nullptr);

// Mean reflectance where none was given (common practice, no source).
[[nodiscard]] double usual_reflectance(job::SurfaceKind kind);
inline constexpr double usual_leaf_reflectance = 0.12;

}  // namespace duskwire::study
