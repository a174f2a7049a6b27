// SPDX-License-Identifier: Apache-2.0
// Zones and ratings for backlight, uplight and glare (IES TM-15-11) of a luminaire as it is mounted for its file:
// level, C 0 forward. Each limit says whether it was seen in print or stands here from memory.
#pragma once

#include <cstdint>
#include <vector>

#include "light/distribution.hpp"

namespace duskwire::light {

enum class LcsZone : std::uint8_t {
  forward_low = 0,
  forward_mid = 1,
  forward_high = 2,
  forward_very_high = 3,
  back_low = 4,
  back_mid = 5,
  back_high = 6,
  back_very_high = 7,
  up_low = 8,
  up_high = 9,
};
inline constexpr std::size_t lcs_zone_count = 10;

struct LcsFlux {
  LcsZone zone = LcsZone::forward_low;
  double flux_lm = 0;
  double share_pct = 0;
};

enum class BugLetter : std::uint8_t { backlight = 0, uplight = 1, glare = 2 };
enum class SourceStatus : std::uint8_t { seen = 0, from_memory = 1 };

// One zone against the upper limits of ratings 0 to 4.
struct BugLimit {
  BugLetter letter = BugLetter::backlight;
  LcsZone zone = LcsZone::back_low;
  double flux_lm = 0;
  std::vector<double> limits_lm;
  std::uint32_t rating = 0;  // 5: above the last limit
  SourceStatus status = SourceStatus::seen;
};

struct BugRating {
  std::vector<LcsFlux> zones;
  std::vector<BugLimit> limits;
  std::uint32_t backlight = 0;
  std::uint32_t uplight = 0;
  std::uint32_t glare = 0;
  bool even_all_round = false;  // front and back alike: glare by the limits of type V
};

// Precondition: type C.
[[nodiscard]] BugRating bug_rating(const Distribution& distribution);

[[nodiscard]] const char* words_of(LcsZone zone);
[[nodiscard]] const char* short_name_of(LcsZone zone);

}  // namespace duskwire::light
