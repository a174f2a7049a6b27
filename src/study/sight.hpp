// SPDX-License-Identifier: Apache-2.0
// Who sees which bare lamp: a straight line from every eye of the plan to every lamp, against the lamp's shield, what
// stands between, and whether the lamp looks that way at all. Internal to the room.
#pragma once

#include <vector>

#include "light/illuminance.hpp"
#include "study/levels.hpp"
#include "study/lit_lamps.hpp"

namespace duskwire::study {

[[nodiscard]] std::vector<SightLine> sight_lines(const job::Job& job, const light::LitScene& scene,
                                                 const std::vector<LitLamp>& lamps);

// An error for each lamp that a neighbour's window sees and nobody has accepted; for other eyes a warning that lists
// the lamps that are bright to look at.
[[nodiscard]] Findings sight_findings(const job::Job& job, const std::vector<SightLine>& sights);

// Light of one lamp at the eye from which it is bright to look at (common practice, no source).
inline constexpr double bright_at_eye_lx = 0.2;

}  // namespace duskwire::study
