// SPDX-License-Identifier: Apache-2.0
// Probe: something that can be read in a garden, and what came of it.
#pragma once

#include <cstdint>

namespace duskwire::diagnosis {

enum class Quantity : std::uint8_t {
  node_v = 0,         // loaded volts across a joint or a lamp's base; `index`: node
  cable_end_v = 1,    // loaded volts on the cable's own conductors beside a joint; `index`: segment, `at_to`
  output_v = 2,       // loaded volts at an output's lugs
  open_output_v = 3,  // the same with its runs lifted
  output_a = 4,       // summed current of an output
  cable_a = 5,        // in one conductor of a cable, `conductor_b`; `index`: segment
  cable_net_a = 6,    // clamp round both conductors
  mains_v = 7,        // as a share of nominal: 1 is nominal
  input_va = 8,       // a transformer's draw from the mains; `index`: transformer
  loop_ohm = 9,       // between both conductors at a node, all outputs lifted; `index`: node
  lamp_state = 10,    // what the eye sees; `index`: load
  breaker = 11,       // whether an output's device has tripped
  lamps_seen = 12,    // which lamps are out, all of them at one look; a candidate only: it yields lamp_states
};

enum class SeenLamp : std::uint8_t { lit = 0, dim = 1, dark = 2, flickering = 3 };

struct Probe {
  Quantity quantity = Quantity::node_v;
  std::uint32_t index = 0;
  bool at_to = false;
  bool conductor_b = false;
  // A segment lifted at its transformer while this was read; 0xffffffff: all as it is.
  std::uint32_t lifted = 0xffffffffu;

  bool operator==(const Probe&) const = default;
};

struct Observation {
  Probe probe;
  double value = 0;               // by quantity; breaker: 1 tripped, 0 not
  double sigma = 0;               // of the meter, one standard deviation
  SeenLamp seen = SeenLamp::lit;  // lamp_state
};

// A reading that might be taken next.
struct Candidate {
  Probe probe;
  double sigma = 0;
  double effort_min = 1;
  std::uint32_t lamp = 0xffffffffu;  // load that whoever reads this stands before, and sees alight or dark
};

}  // namespace duskwire::diagnosis
