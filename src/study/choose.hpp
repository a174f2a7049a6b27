// SPDX-License-Identifier: Apache-2.0
// The verb `choose`: from what is to be lit to the lamps of the catalogue that fit, with beam, lumens, place, aim and
// the reason. What a choice gives in lux is computed with its lamps in the garden.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "job/job.hpp"
#include "study/finding.hpp"
#include "study/level_targets.hpp"

namespace duskwire::study {

// One of tree, area and face says what is to be lit.
struct ChooseRequest {
  std::string tree;
  std::string area;                 // a walk, a drive or steps
  std::string face;                 // of a building or wall: "house/0", by its edge of the outline
  std::string item;                 // judge this article only
  std::string targets;              // set of levels; empty: as the job says
  std::optional<double> setback_m;  // tree, face
  std::optional<double> longest_m;  // walk: no gap is longer
  std::optional<double> pool_m;     // walk: across a pool of light; where absent each article's own
  std::vector<double> risers_m;     // walk: where risers are along it; where empty as the plan's steps lie
};

// A lamp as it would be placed.
struct ChosenLamp {
  std::string item;
  geometry::Point3 position;
  double azimuth_deg = 0;
  double tilt_deg = 0;
};

struct ChoiceOption {
  std::string item;  // id
  std::string title;
  job::LuminaireKind kind = job::LuminaireKind::bullet;
  std::uint32_t count = 0;
  double beam_deg = 0;
  std::optional<double> spot_m;  // across, at the target
  double flux_lm = 0;            // of all
  double average_lx = 0;         // on the target
  double minimum_lx = 0;
  std::int64_t price_minor = 0;  // of the lamps
  bool fits = false;
  std::string reason;  // one sentence
  std::vector<std::string> warnings;
  std::vector<ChosenLamp> lamps;
};

// What the target asks for.
struct ChoiceNeed {
  std::optional<double> setback_m;
  std::optional<double> distance_m;  // lamp to the middle of a crown
  std::optional<double> beam_deg;
  std::optional<double> tilt_deg;
  std::optional<double> spacing_m;
  std::optional<std::uint32_t> count;
  std::optional<double> flux_lm;     // of all lamps together
  std::optional<double> average_lx;  // of the set in force
};

struct Choice {
  LitPlace place = LitPlace::tree;
  std::string target;    // id
  std::string sentence;  // what is advised
  ChoiceNeed need;
  std::vector<ChoiceOption> options;  // best first
  std::vector<std::string> remarks;   // of what is there already, and of what no lamp choice mends
};

// Errors: not_found for a target that the plan does not have, invalid for one that has no size or not exactly one
// target.
[[nodiscard]] Result<Choice> choose(const job::Job& job, const ChooseRequest& request, const job::Catalogue& stock,
                                    const LevelSets& sets);

}  // namespace duskwire::study
