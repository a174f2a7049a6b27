// SPDX-License-Identifier: Apache-2.0
// The verb `price_band`: what a garden may cost before anybody has walked it, from what a first look at photographs
// says. A band with its reasons, feature by feature, and what would narrow it; once there is a job its price stands
// beside the band. An estimate from prices seen in public.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "study/first_look.hpp"

namespace duskwire::study {

// For each light put in, cents of a US dollar: 150 to 400 in flat quotes of whole jobs, 325 as the mean of many jobs,
// as published by contractors and a magazine (docs/algorithms/price.md).
inline constexpr std::int64_t light_low_minor = 150'00;
inline constexpr std::int64_t light_usual_minor = 325'00;
inline constexpr std::int64_t light_high_minor = 400'00;

// What one feature adds to the band.
struct BandPart {
  std::string feature;
  std::uint32_t lamps_low = 0;
  std::uint32_t lamps_high = 0;
  std::int64_t low_minor = 0;
  std::int64_t high_minor = 0;
  std::string reason;
};

struct PriceBand {
  std::string currency = "USD";
  std::uint32_t lamps_low = 0;
  std::uint32_t lamps_high = 0;
  std::int64_t low_minor = 0;    // sum of the parts
  std::int64_t usual_minor = 0;  // in between, at the price for a light that is quoted most
  std::int64_t high_minor = 0;
  std::vector<BandPart> parts;
  std::vector<std::string> widens;   // what is not known and may cost more, a sentence each
  std::vector<std::string> narrows;  // what to send or measure, a sentence each
  std::string basis;                 // where the figures come from
};

// Empty of parts where the note names no feature. Errors: as first_look.
[[nodiscard]] Result<PriceBand> price_band(const FirstLookRequest& request);

}  // namespace duskwire::study
