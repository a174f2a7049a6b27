// SPDX-License-Identifier: Apache-2.0
// The aiming list: where each luminaire stands, which way it looks, and what its light falls on, by the plan.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "job/job.hpp"
#include "study/tape_offsets.hpp"

namespace duskwire::study {

struct CrewAim {
  std::string id;
  std::string name;
  std::string title;
  std::string zone;
  bool aimed = false;  // turned by hand; else it stands upright and shines round or to its front
  double azimuth_deg = 0;
  double tilt_deg = 0;
  double beam_deg = 0;
  double dim_pct = 100;
  std::optional<double> height_m;  // of the light centre, where the luminaire has a place
  std::optional<double> shield_cut_off_deg;
  std::string lights;  // "Old oak", "a wall of House", "the lawn"; empty: nothing of the plan is in its way
  std::optional<double> setback_m;  // level distance to what it lights; for a tree to its trunk
  std::optional<TapeOffsets> offsets;
  bool on_ladder = false;  // higher than one reaches from the ground
};

// In the order of the job.
[[nodiscard]] std::vector<CrewAim> crew_aims(const job::Job& job, const job::Catalogue& stock);

// "Old oak, 2.1 m away", "3.2 ft before a wall of House", "the lawn around it".
[[nodiscard]] std::string lights_in_words(const CrewAim& aim, job::DisplayUnits units);

}  // namespace duskwire::study
