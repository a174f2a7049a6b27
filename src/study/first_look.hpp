// SPDX-License-Identifier: Apache-2.0
// The verb `first_look`: what a contractor can answer on the day a client's photograph comes in. Sizes from one known
// size on it, what to light first and who must not be dazzled from the client's own words, what is still to be asked,
// and a price band. All of it is an estimate, and says so.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/result.hpp"

namespace duskwire::study {

// Something that was measured across on the photograph.
struct SeenThing {
  std::string name;
  double size_px = 0;
};

struct FirstLookRequest {
  SeenThing known;
  double known_m = 0;
  std::vector<SeenThing> things;    // about as far from the camera as the known one
  std::string note;                 // the client's words
  double depth_error_share = 0.15;  // how far off "about as far" may be (estimate); 0 where both are in one plane
  double click_error_px = 2;
  bool outlet_known = false;  // the following are not asked for where they are known
  bool water_known = false;
  bool night_photo_seen = false;
};

struct SizeEstimate {
  std::string name;
  double size_m = 0;
  double error_m = 0;  // to both sides
  double error_share = 0;
};

// A feature worth a light, by what the client said and what was measured.
struct Effect {
  std::uint32_t rank = 0;
  std::string feature;
  std::string reason;
  std::string technique;
  std::uint32_t lamps_low = 0;
  std::uint32_t lamps_high = 0;
};

// Somebody who looks into the garden and must not see a bare lamp.
struct Eye {
  std::string name;
  std::string reason;
};

struct FirstLook {
  std::vector<SizeEstimate> sizes;
  std::vector<Effect> effects;
  std::vector<Eye> eyes;
  std::vector<std::string> asks;
  std::int64_t price_low_minor = 0;  // in cents of a US dollar
  std::int64_t price_high_minor = 0;
  std::string price_basis;
};

[[nodiscard]] Result<FirstLook> first_look(const FirstLookRequest& request);

}  // namespace duskwire::study
