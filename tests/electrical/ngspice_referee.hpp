// SPDX-License-Identifier: Apache-2.0
// An independent referee of the solver: networks are written as circuits, solved by ngspice as a separate process and
// compared at every node.
//
// ngspice starts without any knowledge of our answer: it walks from a twentieth of the load to the whole load, each
// step from the one before, which keeps to the branch with the highest volts. Where its iteration does not get through
// (after the volts of some lamps have collapsed), or falls to a lower branch, it walks in finer steps; where that fails
// too, it is started at our answer and must stay there. The verdict says how many networks went which way.
#pragma once

#include <string>
#include <vector>

#include "base/result.hpp"
#include "electrical/network.hpp"
#include "electrical/solution.hpp"
#include "electrical/solver.hpp"

namespace duskwire::electrical::testing {

inline constexpr double referee_tolerance_v = 1e-6;
inline constexpr int coarse_steps = 20;

// One network with our answer to it. Nothing but zeros where the solver refuses the network.
struct Ours {
  Network network;
  Condition condition;
  Solution solution;
  Potentials potentials;
};
[[nodiscard]] Ours solved(Network network, Condition condition);

// ngspice's volts at every node, or why there are none. One step: started at our answer.
[[nodiscard]] std::vector<Result<std::vector<double>>> ask_ngspice(const std::vector<const Ours*>& cases, int steps);

[[nodiscard]] double worst_gap_v(const std::vector<double>& theirs_v, const std::vector<double>& ours_v);

struct Verdict {
  std::vector<double> gap_v;         // per case, in the end
  std::vector<std::string> trouble;  // why there is no agreement; empty where there is
  std::size_t coarse = 0;
  std::size_t fine = 0;
  std::size_t from_ours = 0;
};
[[nodiscard]] Verdict judged_by_ngspice(const std::vector<const Ours*>& cases);

}  // namespace duskwire::electrical::testing
