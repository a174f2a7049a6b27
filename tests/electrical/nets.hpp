// SPDX-License-Identifier: Apache-2.0
// Small networks that the tests of this room share.
#pragma once

#include "electrical/network.hpp"
#include "electrical/solver.hpp"

namespace duskwire::electrical::test {

inline Load led(std::uint32_t node, double power_va) {
  Load load;
  load.plus = {node, Conductor::a};
  load.minus = {node, Conductor::b};
  load.power_va = power_va;
  load.v_cut_off = 6;
  load.v_regulation_min = 9;
  load.v_max = 15;
  return load;
}

// Loop resistance split evenly on both conductors.
inline Segment segment(std::uint32_t from, std::uint32_t to, double loop_ohm) {
  Segment result;
  result.from = from;
  result.to = to;
  result.copper_a_ohm = result.copper_b_ohm = loop_ohm / 2;
  return result;
}

// Node 0 is the output; node k hangs on node k - 1.
inline Network chain(std::uint32_t lamps, double power_va, double loop_ohm, double emf_v, double source_ohm = 0) {
  Network network;
  network.node_count = lamps + 1;
  network.transformers.push_back({});
  network.outputs.push_back({0, 0, emf_v, source_ohm, 25});
  for (std::uint32_t k = 1; k <= lamps; ++k) {
    network.segments.push_back(segment(k - 1, k, loop_ohm));
    network.loads.push_back(led(k, power_va));
  }
  return network;
}

inline Solution must_solve(const Network& network, const Condition& condition = {}) {
  return solve(network, condition).value();
}

}  // namespace duskwire::electrical::test
