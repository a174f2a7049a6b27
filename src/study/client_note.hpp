// SPDX-License-Identifier: Apache-2.0
// A client's note read for what a lighting design needs: which features it names, whether with fear or with love, and
// which windows. Plain words by list, nothing clever: whoever uses it reads the note too.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace duskwire::study {

enum class Feature : std::uint8_t {
  steps = 0,
  walk = 1,
  door = 2,
  tree = 3,
  wall = 4,
  terrace = 5,
  water = 6,
  bed = 7
};

enum class Feeling : std::uint8_t { fear = 0, love = 1, plain = 2 };

struct NotedFeature {
  Feature feature = Feature::steps;
  Feeling feeling = Feeling::plain;
  std::string words;  // the part of the note that names it
};

struct ClientNote {
  std::vector<NotedFeature> features;  // each once, in the order of the note
  std::vector<std::string> eyes;       // windows and neighbours, as named
};

[[nodiscard]] ClientNote read_note(const std::string& note);

}  // namespace duskwire::study
