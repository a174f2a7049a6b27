// SPDX-License-Identifier: Apache-2.0
// Solution: the steady state of a network in one condition, index by index as in the network. Every number is finite.
#pragma once

#include <cstdint>
#include <vector>

namespace duskwire::electrical {

enum class LampState : std::uint8_t {
  off = 0,        // no supply, or below cut-off
  dim = 1,        // alight below its regulation range (a filament: below Load::v_regulation_min)
  regulated = 2,  // inside its range
  over = 3,       // above its highest voltage
};

struct Solution {
  bool converged = false;           // Kirchhoff's current law met at every node within 1e-9 A
  std::uint32_t iterations = 0;     // the most that any part of the network took
  double worst_residual_a = 0;      // largest current imbalance at any node
  std::vector<double> node_v;       // conductor A minus conductor B at each node
  std::vector<double> segment_a_a;  // current in conductor A, positive from -> to
  std::vector<double> segment_b_a;  // current in conductor B, positive from -> to (the return is negative)
  std::vector<double> load_v;       // plus minus minus
  std::vector<double> load_a;       // into plus
  std::vector<LampState> load_state;
  std::vector<double> load_light;  // share of full light, 1 inside regulation
  std::vector<double> output_a;    // out of conductor A
  std::vector<double> output_v;    // at the output's terminals
  std::vector<double> bridge_a;    // p -> q
};

}  // namespace duskwire::electrical
