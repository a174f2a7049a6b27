// SPDX-License-Identifier: Apache-2.0
// Jobs for the tests of the list of materials: one small garden with known lengths, and seeded random ones.
#pragma once

#include <cstdint>

#include "job/job.hpp"

namespace duskwire::estimate::tests {

// Transformer T; 30 m of 12 AWG to the hub S1, 15 m more to the hub S2; four uplights on 8 m leads of 14 AWG at S1,
// three path lights on 5 m and a wall wash on 10 m at S2.
[[nodiscard]] job::Job two_hub_garden();

// Goods of the tests, prices in cents: what two_hub_garden uses, and a few more of each kind.
[[nodiscard]] job::Catalogue test_catalogue();

// The same garden on its ground, of the 45 m of trunk 25 m under lawn and all else under mulch, with the offer of the
// acceptance example of the price: an hour at 85.00 that costs 38.00, 60 % on material, a floor of 45 %.
[[nodiscard]] job::Job offered_garden();

// A job of a few to some tens of cables; about one in twenty names an unknown item or has no length.
[[nodiscard]] job::Job random_job(std::uint32_t seed);

}  // namespace duskwire::estimate::tests
