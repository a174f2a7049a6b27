// SPDX-License-Identifier: Apache-2.0
// Where the lamps of one lot stand and what they are: along walk, beds, fence and patio, at trees, at the facade.
#pragma once

#include <cstdint>
#include <vector>

#include "geometry/point.hpp"
#include "sites/ground_plan.hpp"

namespace duskwire::sites {

struct LampPlace {
  geometry::Point2 place;  // in the frame of the lot
  const char* item = "";   // of the stock
};

// Exactly `lamps` of them, none in a building, on a drive or within 3 m of a pool.
[[nodiscard]] std::vector<LampPlace> lamp_places(const Measures& lot, std::uint32_t lamps, wiring::Dice& dice);

}  // namespace duskwire::sites
