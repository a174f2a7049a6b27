// SPDX-License-Identifier: Apache-2.0
// The verb `levels`: how much light falls where, against what levels are asked; what leaves the lot; who sees which
// bare lamp; what goes up. Direct light with shadows of what is solid and the shade of crowns; where asked, what
// bounces once is added.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "geometry/point.hpp"
#include "job/job.hpp"
#include "study/finding.hpp"
#include "study/level_targets.hpp"
#include "study/night_plan.hpp"

namespace duskwire::study {

// Of the light on a set of points.
struct LuxFigures {
  double average_lx = 0;
  double minimum_lx = 0;
  double maximum_lx = 0;
  double uniformity = 0;  // minimum over average; 0 where it is dark
  double bounced_lx = 0;  // of the average, what bounced once; 0 where that was not asked for
  std::uint32_t points = 0;
  geometry::Point3 minimum_at;
};

// One target held against one place.
struct LevelVerdict {
  std::string set;
  std::string target;
  std::string title;
  bool in_force = false;  // the set that the job names
  bool met = false;
  std::string asked;   // "10 lx on average, 3 lx upright"
  std::string missed;  // what of it the place has not; empty where met
  Provenance provenance;
};

struct TreadLevels {
  std::uint32_t number = 0;  // from the lowest, 1
  double height_m = 0;
  LuxFigures lit;
};

struct PlaceLevels {
  std::string id;  // of the area or tree; a face: "house/2", by its edge of the outline
  std::string name;
  std::string pointer;  // JSON pointer of the area or tree
  LitPlace place = LitPlace::ground;
  LuxFigures lit;                        // on its own plane: ground, treads, face, crown
  std::optional<LuxFigures> centreline;  // a walk's middle
  std::optional<LuxFigures> upright;     // at eye height, mean of the ways that faces turn
  std::optional<double> length_m;        // of a walk
  std::optional<double> width_m;
  std::vector<TreadLevels> treads;
  std::vector<LevelVerdict> verdicts;  // in force first
};

struct LampLevels {
  std::string id;
  double share = 0;      // of full light: dimming and volts
  double dim_share = 0;  // dimming alone
  double flux_lm = 0;    // at that share
  double azimuth_deg = 0;
  double tilt_deg = 0;
  bool aim_assumed = false;
  double upward_share = 0;  // of its light, above the level
};

// Light that leaves over one edge of the property line, on the upright plane in it.
struct SpillEdge {
  std::uint32_t edge = 0;  // of the outline
  double average_lx = 0;
  double maximum_lx = 0;
  geometry::Point3 maximum_at;
  std::string lamp;  // that gives most of it there
  double lamp_lx = 0;
};

// On a neighbour's window, taken as the upright plane that catches most.
struct WindowSpill {
  std::string view_point;
  double lx = 0;
  std::string lamp;
  double lamp_lx = 0;
};

enum class SightState : std::uint8_t { visible = 0, shielded = 1, turned_away = 2, blocked = 3, accepted = 4 };

// From an eye to a bare lamp.
struct SightLine {
  std::string view_point;
  std::string lamp;
  double distance_m = 0;
  double off_axis_deg = 0;  // between the lamp's aim and the way to the eye
  double intensity_cd = 0;  // that it sends there, at its share
  SightState state = SightState::visible;
  std::string words;  // "lamp visible from Neighbour's bedroom", "lamp hidden"
};

enum class BrightnessRole : std::uint8_t { focal = 0, support = 1, background = 2, dark = 3 };

// The order in which the eye finds things.
struct BrightnessRow {
  std::string id;
  std::string name;
  LitPlace place = LitPlace::ground;
  double average_lx = 0;
  double reflectance = 0;      // usual of its kind
  double luminance_cd_m2 = 0;  // E rho / pi
  double ratio = 0;            // to the brightest
  BrightnessRole role = BrightnessRole::dark;
};

struct UpwardLight {
  double flux_lm = 0;    // of all lamps at their shares
  double upward_lm = 0;  // above the level as it leaves the lamps; what roofs and crowns stop is still in it
  double upward_share = 0;
};

// Light that bounced once, where it was asked for.
struct BounceLevels {
  double patch_m = 0;         // no patch is longer
  std::uint32_t patches = 0;  // that send light
  double sent_lm = 0;
};

struct Levels {
  std::string targets;  // the set in force
  std::vector<LampLevels> lamps;
  std::vector<PlaceLevels> places;
  double property_line_limit_lx = 0;
  std::vector<SpillEdge> property_line;
  double window_limit_lx = 0;
  std::vector<WindowSpill> windows;
  std::vector<SightLine> sights;
  UpwardLight upward;
  std::optional<BounceLevels> bounce;
  std::vector<BrightnessRow> brightness;  // brightest first
  std::optional<NightPlan> plan;
  Findings findings;          // errors first
  bool sound = false;         // no finding is an error
  bool blocks_quote = false;  // a neighbour sees a bare lamp, or has too much light, and nobody has accepted it
};

struct LevelsOptions {
  std::string targets;  // empty: as the job says
  std::optional<double> property_line_limit_lx;
  std::optional<double> window_limit_lx;
  bool plan = true;
  bool bounce = false;
  double cell_m = 0.25;  // of the plan's raster; coarser where that would be too many cells
};

[[nodiscard]] Levels levels(const job::Job& job, const LevelSets& sets, const LevelsOptions& options = {});

}  // namespace duskwire::study
