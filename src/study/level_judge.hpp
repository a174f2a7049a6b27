// SPDX-License-Identifier: Apache-2.0
// Targets held against what was found, the set in force first, the others beside it. Internal to the room.
#pragma once

#include <string>

#include "study/levels.hpp"

namespace duskwire::study {

// In the order: the set in force, then the others as they come.
void judge_places(const LevelSets& sets, const std::string& in_force, std::vector<PlaceLevels>& places);

// Warnings for what the set in force is not met by, errors first.
[[nodiscard]] Findings place_findings(const std::vector<PlaceLevels>& places);

// The limits of lamps that the set in force has: colour, lumens, light upwards.
[[nodiscard]] Findings lamp_findings(const job::Job& job, const LevelSet& set, const std::vector<LampLevels>& lamps);

// "10 lx on average, no less than 3 lx".
[[nodiscard]] std::string asked_words(const LevelTarget& target);

// One decimal below 10 lx, none above.
[[nodiscard]] std::string lux_words(double lx);

}  // namespace duskwire::study
