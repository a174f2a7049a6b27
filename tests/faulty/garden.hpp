// SPDX-License-Identifier: Apache-2.0
// Seeded gardens: sound networks of several runs, in the shapes that runs take.
#pragma once

#include <cstdint>
#include <vector>

#include "electrical/network.hpp"
#include "wiring/dice.hpp"

namespace duskwire::faulty {

enum class Shape : std::uint8_t { chain = 0, tee = 1, hub = 2, loop = 3 };

struct Garden {
  electrical::Network network;
  std::vector<bool> leads;  // by segment
};

// Lamps hold at least 10.8 V when all is sound. Outputs of four to a transformer, each with one run of ten lamps or so.
[[nodiscard]] Garden make_garden(Shape shape, std::uint32_t lamps, wiring::Dice& dice);

// A normal deviate (Box and Muller).
[[nodiscard]] double normal(wiring::Dice& dice);

}  // namespace duskwire::faulty
