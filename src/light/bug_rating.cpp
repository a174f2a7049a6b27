// SPDX-License-Identifier: Apache-2.0
// Zones of IES TM-15-11 (seen in two public summaries). Limits for B and U: seen in a public reader of intensity files,
// U2 and U3 also in the users' guide of the model lighting ordinance of 2011. Limits for glare: from memory.
#include "light/bug_rating.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "light/zones.hpp"

namespace duskwire::light {
namespace {

// Forward is the half turn about C 0.
constexpr std::array<Zone, lcs_zone_count> zone_bounds = {{
    {0, 30, 270, 450},
    {30, 60, 270, 450},
    {60, 80, 270, 450},
    {80, 90, 270, 450},
    {0, 30, 90, 270},
    {30, 60, 90, 270},
    {60, 80, 90, 270},
    {80, 90, 90, 270},
    {90, 100, 0, 360},
    {100, 180, 0, 360},
}};

using Limits = std::vector<double>;
const Limits low_or_high_back{110, 500, 1000, 2500, 5000};
const Limits mid_back{220, 1000, 2500, 5000, 8500};
const Limits up{0, 10, 50, 500, 1000};
const Limits very_high{10, 100, 225, 500, 750};
const Limits high_forward{660, 1800, 5000, 7500, 12000};

std::uint32_t rating_of(double flux_lm, const Limits& limits_lm) {
  // A rating of 0 allows no light at all: what rounds to 0.0 lm is none.
  const double counted_lm = flux_lm < 0.05 ? 0 : flux_lm;
  std::uint32_t rating = 0;
  for (const double limit_lm : limits_lm) rating += counted_lm > limit_lm ? 1 : 0;
  return rating;
}

bool front_and_back_alike(const std::vector<LcsFlux>& zones) {
  for (std::size_t i = 0; i < 4; ++i) {
    const double front_lm = zones[i].flux_lm;
    const double back_lm = zones[i + 4].flux_lm;
    if (std::abs(front_lm - back_lm) > 0.05 * std::max(front_lm, back_lm)) return false;
  }
  return true;
}

}  // namespace

BugRating bug_rating(const Distribution& d) {
  BugRating rating;
  const double whole_lm = flux_lm(d);
  for (std::size_t i = 0; i < lcs_zone_count; ++i) {
    const double zone_lm = zone_flux_lm(d, zone_bounds[i]);
    rating.zones.push_back({static_cast<LcsZone>(i), zone_lm, whole_lm > 0 ? 100 * zone_lm / whole_lm : 0});
  }
  rating.even_all_round = front_and_back_alike(rating.zones);
  const auto add = [&](BugLetter letter, LcsZone zone, const Limits& limits_lm, SourceStatus status,
                       std::uint32_t& worst) {
    const double zone_lm = rating.zones[static_cast<std::size_t>(zone)].flux_lm;
    const std::uint32_t own = rating_of(zone_lm, limits_lm);
    rating.limits.push_back({letter, zone, zone_lm, limits_lm, own, status});
    worst = std::max(worst, own);
  };
  using enum SourceStatus;
  add(BugLetter::backlight, LcsZone::back_low, low_or_high_back, seen, rating.backlight);
  add(BugLetter::backlight, LcsZone::back_mid, mid_back, seen, rating.backlight);
  add(BugLetter::backlight, LcsZone::back_high, low_or_high_back, seen, rating.backlight);
  add(BugLetter::uplight, LcsZone::up_low, up, seen, rating.uplight);
  add(BugLetter::uplight, LcsZone::up_high, up, seen, rating.uplight);
  add(BugLetter::glare, LcsZone::forward_high, high_forward, from_memory, rating.glare);
  add(BugLetter::glare, LcsZone::forward_very_high, very_high, from_memory, rating.glare);
  add(BugLetter::glare, LcsZone::back_high, rating.even_all_round ? high_forward : low_or_high_back, from_memory,
      rating.glare);
  add(BugLetter::glare, LcsZone::back_very_high, very_high, from_memory, rating.glare);
  return rating;
}

const char* words_of(LcsZone zone) {
  constexpr const char* words[] = {"forward low", "forward mid", "forward high",   "forward very high", "back low",
                                   "back mid",    "back high",   "back very high", "uplight low",       "uplight high"};
  return words[static_cast<std::size_t>(zone)];
}

const char* short_name_of(LcsZone zone) {
  constexpr const char* names[] = {"FL", "FM", "FH", "FVH", "BL", "BM", "BH", "BVH", "UL", "UH"};
  return names[static_cast<std::size_t>(zone)];
}

}  // namespace duskwire::light
