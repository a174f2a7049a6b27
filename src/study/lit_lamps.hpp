// SPDX-License-Identifier: Apache-2.0
// The luminaires of a job as light sees them: where each is, which way its table is turned, and how much of its light
// is there after dimming and on the volts that the wiring leaves it. Levels, sight lines, the night view and the page
// all ask here, so that a lamp never looks two ways.
//
// Kinds that are aimed (bullet, wall_wash, well, tree_downlight, underwater, and lamps on their own) have gamma = 0
// along their aim and C = 0 on the upper side of it. Kinds that stand upright (path, bollard, step, strip, and whatever
// shines all round) have gamma = 0 straight down and C = 0 towards their azimuth.
#pragma once

#include <cstdint>
#include <vector>

#include "geometry/point.hpp"
#include "geometry/vec3.hpp"
#include "job/job.hpp"
#include "study/finding.hpp"

namespace duskwire::study {

enum class Stance : std::uint8_t { aimed = 0, upright = 1 };

[[nodiscard]] Stance stance_of(const job::LuminaireItem& item);

struct LitLamp {
  std::uint32_t luminaire = 0;               // index into Job::luminaires
  const job::LuminaireItem* item = nullptr;  // of the job's catalogue
  geometry::Point3 position;
  geometry::Vec3 aim{0, 0, -1};  // gamma = 0, of unit length
  geometry::Vec3 zero{1, 0, 0};  // C = 0, square to the aim
  Stance stance = Stance::aimed;
  bool aim_assumed = false;
  double dim_share = 1;
  double share = 1;  // of full light: dimming, and what the volts leave
};

struct LitLamps {
  std::vector<LitLamp> lamps;  // in the order of the job; those without a place or an article are left out
  Findings findings;           // who was left out, which aims and shares were assumed
};

struct LitOptions {
  bool volts = true;  // false: by dimming alone, as if each lamp had its rated volts
};

// A lamp that no cable feeds is taken at rated volts, and a finding says so: light is planned before wiring. The job
// must outlive the answer.
[[nodiscard]] LitLamps lit_lamps(const job::Job& job, const LitOptions& options = {});

// A way from an azimuth (clockwise from north) and a tilt (0 level, 90 up) in the site frame of the plan, and the way
// square to it on its upper side.
[[nodiscard]] geometry::Vec3 way_of(const job::Plan& plan, double azimuth_deg, double tilt_deg);
[[nodiscard]] geometry::Vec3 upper_side_of(const job::Plan& plan, double azimuth_deg, double tilt_deg);

// The azimuth, 0 to 360, and tilt of a way. A way straight up or down has azimuth 0.
struct Aim {
  double azimuth_deg = 0;
  double tilt_deg = 0;
};
[[nodiscard]] Aim aim_of(const job::Plan& plan, geometry::Vec3 way);

}  // namespace duskwire::study
