// SPDX-License-Identifier: Apache-2.0
// Recomputes from a solution what physics demands of it, with nothing of the solver's own bookkeeping: Kirchhoff's
// current law at every conductor point, Ohm's law on every resistance, the laws of the loads, the balance of power.
#pragma once

#include <string>

#include "electrical/network.hpp"
#include "electrical/solution.hpp"
#include "electrical/solver.hpp"

namespace duskwire::electrical::testing {

// The largest violation of each law in the whole network.
struct Audit {
  double kirchhoff_a = 0;   // sum of the reported currents at a conductor point
  double ohm_v = 0;         // potential difference less resistance times current: cables, bridges, outputs
  double node_v = 0;        // node_v, load_v, output_v against the potentials of both conductors
  double load_law_a = 0;    // load_a against the law of its kind at load_v
  double source_w = 0;      // power out of the windings' ideal sources
  double sink_w = 0;        // taken by windings, cables, bridges and loads
  bool finite = true;       // every number of the solution
  std::string wrong_state;  // the first lamp whose state contradicts its volts; empty: none

  [[nodiscard]] double power_gap_w() const { return source_w - sink_w; }
};

[[nodiscard]] Audit audit(const Network& network, const Condition& condition, const Solution& solution,
                          const Potentials& potentials);

}  // namespace duskwire::electrical::testing
