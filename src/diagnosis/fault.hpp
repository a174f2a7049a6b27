// SPDX-License-Identifier: Apache-2.0
// Fault: one way for the network to be other than planned, with its one free parameter.
#pragma once

#include <cstdint>
#include <vector>

#include "diagnosis/problem.hpp"
#include "electrical/network.hpp"

namespace duskwire::diagnosis {

enum class FaultKind : std::uint8_t {
  sound = 0,   // nothing: as planned
  open = 1,    // segment: no current passes (in a tree: one conductor or both)
  open_a = 2,  // segment, where a loop keeps the lamps lit
  open_b = 3,
  resistive = 4,      // segment: parameter ohms more in the loop
  short_span = 5,     // segment: parameter ohms across its middle
  dead_lamp = 6,      // load
  water = 7,          // load: parameter ohms across the lamp
  short_lamp = 8,     // load: parameter ohms across the lamp
  added_load = 9,     // node: parameter VA
  wrong_gauge = 10,   // output: parameter is a factor on the copper of its trunk
  wrong_tap = 11,     // output: parameter volts of the tap
  weak_output = 12,   // output: parameter ohms more in winding or lug
  tripped = 13,       // output: its device is open
  bridged_taps = 14,  // output: parameter volts of the other tap
  transformer_dead = 15,
  no_mains = 16,     // outlet, residual-current device or house breaker off
  control_off = 17,  // clock, photocell or relay keeps it off
  low_mains = 18,    // parameter: factor on the mains
  crossed = 19,      // segment: conductors swapped at its `to`
};

struct Fault {
  FaultKind kind = FaultKind::sound;
  std::uint32_t element = none;  // segment, load, node, output or transformer, by kind
  double parameter = 0;

  bool operator==(const Fault&) const = default;
};

// Whether the kind has a parameter to be fitted, and how it is called in what units.
[[nodiscard]] bool has_parameter(FaultKind kind);

// The network and condition with these faults in it. What a tripping device does comes after solving: see state.hpp.
struct Faulted {
  electrical::Network network;
  electrical::Condition condition;
  bool mains_present = true;
};
[[nodiscard]] Faulted apply(const FaultProblem& problem, const std::vector<Fault>& faults);

}  // namespace duskwire::diagnosis
