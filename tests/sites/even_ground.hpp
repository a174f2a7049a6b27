// SPDX-License-Identifier: Apache-2.0
// Trenches as straight stretches from point to point, each once: for sites on even ground, where nothing else counts.
#pragma once

#include <cstdint>
#include <utility>
#include <vector>

#include "geometry/point.hpp"

namespace duskwire::sites {

inline constexpr double same_place_m = 0.02;

using Stretch = std::pair<std::uint32_t, std::uint32_t>;  // indices of points, the lower first

// The stretch between two places, cut at each point that lies on it.
[[nodiscard]] std::vector<Stretch> stretches_between(geometry::Point2 from, geometry::Point2 to,
                                                     const std::vector<geometry::Point2>& points);

// Metres of trench that these ways take together.
[[nodiscard]] double dug_once_m(const std::vector<geometry::Polyline>& ways);

}  // namespace duskwire::sites
