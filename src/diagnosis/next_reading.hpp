// SPDX-License-Identifier: Apache-2.0
// The next reading: the one expected to say most about the place for its effort. Internal to the room.
#pragma once

#include <vector>

#include "diagnosis/answer.hpp"
#include "diagnosis/worlds.hpp"

namespace duskwire::diagnosis {

inline constexpr double to_hand_min = 0.5;  // taking any reading: probes out, number noted

// Best first; those that say nothing are left out.
[[nodiscard]] std::vector<NextReading> next_readings(const Model& model, const std::vector<World>& worlds);

// What half-splitting would read: volts where half the chance lies beyond. None if no candidate splits.
[[nodiscard]] std::vector<NextReading> half_split(const Model& model, const std::vector<World>& worlds);

// Nodes beyond each node, itself included, seen from the outputs along the cables; loops by their shortest way.
[[nodiscard]] std::vector<std::uint32_t> parents(const electrical::Network& network);

}  // namespace duskwire::diagnosis
