// SPDX-License-Identifier: Apache-2.0
// The lower bound of a small site: over its transformers, without volts first, then with them.
#include <algorithm>

#include "wiring/exact_model.hpp"

namespace duskwire::wiring {

std::optional<ExactBound> exact_bound(const ExactProblem& problem, double known_cost, const ProgramSolver& solver) {
  constexpr double to_be_sure = 1.0005;  // so that the known wiring itself stays within
  ExactBound whole{known_cost, true};
  for (const ExactProblem::Unit& unit : problem.units) {
    if (unit.cost >= known_cost) break;
    double bound = 0;
    bool proven = false;
    for (const Volts volts : {Volts::left_out, Volts::kept}) {
      SolveOptions options;
      options.known_answer = known_cost * to_be_sure - unit.cost;
      const auto solved = solver(exact_model(problem, unit, volts), options);
      if (!solved && volts == Volts::left_out) return std::nullopt;
      if (!solved) break;  // out of time: what is known without volts holds
      bound = std::max(bound, solved->bound + unit.cost);
      // Nothing that is cheaper, even without volts.
      proven = solved->proven && (volts == Volts::kept || bound >= known_cost * (1 - 2 * options.tolerance));
      if (proven || !solved->proven) break;  // what the easier program had too little time for, the harder one has too
    }
    whole.bound = std::min(whole.bound, bound);
    whole.proven = whole.proven && proven;
  }
  return whole;
}

}  // namespace duskwire::wiring
