// SPDX-License-Identifier: Apache-2.0
// State: what a network with faults in it settles to, protective devices included, and what a probe would read there.
// Internal to the room.
#pragma once

#include <cstdint>
#include <vector>

#include "diagnosis/fault.hpp"
#include "electrical/solution.hpp"

namespace duskwire::diagnosis {

struct State {
  Faulted faulted;
  electrical::Solution solution;
  std::vector<bool> tripped;  // by output
  std::vector<Fault> faults;
  bool near = false;             // solved from the plan's own factors: see nearby.hpp
  std::vector<double> loop_ohm;  // by node, where it is known already; empty: solved for when it is read
};

class Nearby;

// `lifted`: a segment taken off its transformer; none: all as it is. `surely_tripped`: an output known to trip, which
// saves solving the short that trips it. `nearby`: of this problem, saves solving afresh what differs little.
[[nodiscard]] State settle(const FaultProblem& problem, const std::vector<Fault>& faults, std::uint32_t lifted = none,
                           std::uint32_t surely_tripped = none, const Nearby* nearby = nullptr);

// Without a path between the conductors an ohmmeter sees nothing but switched-off lamps.
[[nodiscard]] bool joins_conductors(const Fault& fault);

// A device opens within minutes above this share of its rating (thermal breakers hold about a tenth more; from memory).
inline constexpr double trips_above = 1.15;

// What the probe reads. `at`: the place of the first fault, which matters for readings at the ends of the very cable
// that is at fault (none: its middle). lamp_state: share of full light. breaker: 0 or 1.
[[nodiscard]] double read(const FaultProblem& problem, const State& state, const Probe& probe, std::uint32_t at = none);

// An ohmmeter shows no more than this: to it, everything above is open.
inline constexpr double most_ohm = 1000;

}  // namespace duskwire::diagnosis
