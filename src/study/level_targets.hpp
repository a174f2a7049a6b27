// SPDX-License-Identifier: Apache-2.0
// Levels of light that a source asks for or allows, as values: data/levels/*.json, read by `formats`. Sources differ,
// so several sets are shown beside each other and one that the job names is in force.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "study/finding.hpp"

namespace duskwire::study {

// What a level is asked of.
enum class LitPlace : std::uint8_t {
  path = 0,
  steps = 1,
  drive = 2,
  terrace = 3,  // patio, deck
  bed = 4,
  background = 5,  // garden walls
  facade = 6,
  tree = 7,
  ground = 8,  // lawn and the rest: looked at, not judged
  property_line = 9,
  window = 10,  // of a neighbour
  lamp = 11,
};

struct LevelTarget {
  std::string id;  // within its set
  std::string title;
  LitPlace place = LitPlace::path;
  bool chosen = true;  // of several for one place the one that judges; the others are shown
  std::optional<double> average_lx;
  std::optional<double> minimum_lx;
  std::optional<double> uniformity;          // minimum over average, at least
  std::optional<double> upright_average_lx;  // on upright planes at eye height
  std::optional<double> most_lx;             // highest allowed anywhere
  std::optional<double> most_colour_temperature_k;
  std::optional<double> most_flux_lm;
  std::optional<double> most_upward_pct;  // of a lamp's light, above the level
  Provenance provenance;
};

struct LevelSet {
  std::string id;  // what a job's light names: "garden"
  std::string title;
  std::string notice;
  std::vector<LevelTarget> targets;
};

using LevelSets = std::vector<LevelSet>;

[[nodiscard]] const LevelSet* find_set(const LevelSets& sets, const std::string& id);

// The target of a set that judges such a place; nothing where the set is silent.
[[nodiscard]] const LevelTarget* chosen_target(const LevelSet& set, LitPlace place);

}  // namespace duskwire::study
