// SPDX-License-Identifier: Apache-2.0
// The one call: a network, prepared once, solved in any number of conditions. Parts of the network that are trees with
// both conductors whole go through a sweep; meshed parts through a damped sparse Newton. Method: docs/algorithms/
// electrical.md. A Prepared network is immutable; a Workspace belongs to one thread.
#pragma once

#include <memory>
#include <vector>

#include "base/problem.hpp"
#include "base/result.hpp"
#include "electrical/network.hpp"
#include "electrical/solution.hpp"

namespace duskwire::electrical {

// What is wrong with a network as a problem: pointers are of the form /segments/3/copper_a_ohm.
// Errors: index out of range, negative or non-finite resistance, a load without rated volts, regulation order broken.
// Warnings: islands without a source, a load across two nodes.
[[nodiscard]] Problems validate(const Network& network);

// The errors alone: cheaper, since nothing is partitioned.
[[nodiscard]] Problems validate_errors(const Network& network);

class Prepared;

// Scratch memory and the answer of the last solve; reused from call to call so that the loop allocates nothing.
struct Workspace;
struct WorkspaceDeleter {
  void operator()(Workspace* workspace) const;
};
using WorkspacePtr = std::unique_ptr<Workspace, WorkspaceDeleter>;

// Fails with the first error of validate(). The Prepared owns the network: move it in where it is not needed again.
[[nodiscard]] Result<std::shared_ptr<const Prepared>> prepare(Network network);
[[nodiscard]] const Network& network_of(const Prepared& prepared);

[[nodiscard]] WorkspacePtr make_workspace(const Prepared& prepared);

// Solves from a flat start at no-load volts; never throws on a prepared network, never leaves a NaN. Of several
// steady states it returns the one with the highest volts, which is where a system that was sound stays.
const Solution& solve(const Prepared& prepared, const Condition& condition, Workspace& workspace);

// Convenience for one-off use.
[[nodiscard]] Result<Solution> solve(Network network, const Condition& condition = {});

// True if the whole of the network went to the sweep (no loop, no half-open cable in a loop, no bridge between nodes).
[[nodiscard]] bool is_radial(const Prepared& prepared);

// Potentials of both conductors, volts. Each galvanic part is referred to conductor B of its first output; parts
// without a source read 0.
struct Potentials {
  std::vector<double> a_v;
  std::vector<double> b_v;
};
// Solves anew: the workspace then holds that solution.
[[nodiscard]] Potentials potentials(const Prepared& prepared, const Condition& condition, Workspace& workspace);

// Factor by which all loads (or all cable lengths) may grow before the first lamp that is regulated now leaves
// regulation. 1 or less never occurs for a network whose lamps are all regulated; 0 if some lamp is not regulated now.
struct Margin {
  double factor = 0;             // capped at `cap`
  bool beyond_cap = false;       // no lamp left regulation up to the cap
  std::uint32_t first_load = 0;  // the lamp that leaves first
};
inline constexpr double margin_cap = 20.0;
[[nodiscard]] Margin load_margin(const Prepared& prepared, const Condition& condition, Workspace& workspace);
[[nodiscard]] Margin length_margin(const Prepared& prepared, const Condition& condition, Workspace& workspace);

// Current of a bolted short between A and B at every node, loads ignored, amperes; 0 where no output reaches.
// `output` is the output that feeds most of it.
struct ShortCircuit {
  std::vector<double> node_a;
  std::vector<std::uint32_t> output;   // the output that carries the most of it; no_output where none does
  std::vector<double> output_share_a;  // what that output's protective device sees
};
inline constexpr std::uint32_t no_output = 0xffffffffu;
[[nodiscard]] ShortCircuit short_circuit(const Prepared& prepared, const Condition& condition, Workspace& workspace);

// Volts of each lamp when it alone is on: the upper end of "few lamps". Index by load.
[[nodiscard]] std::vector<double> lone_lamp_v(const Prepared& prepared, const Condition& condition,
                                              Workspace& workspace);

}  // namespace duskwire::electrical
