// SPDX-License-Identifier: Apache-2.0
// What all cables of a wiring lose together, as rows of its mixed-integer program: a transformer that has hardly more
// than the lamps' own VA needs thick copper, and the program has to know what that costs.
#pragma once

#include <cstdint>
#include <vector>

#include "wiring/exact_problem.hpp"
#include "wiring/linear_program.hpp"

namespace duskwire::wiring {

// What the transformer can deliver at its terminals beyond what the lamps draw: all that cables and leads may lose.
[[nodiscard]] double spare_va(const ExactProblem& problem, const ExactProblem::Unit& unit);

// How many of the cables may be sensible with it: as far as one that would do for the whole load, a fifth beyond the
// farthest point, as to amperes, windows and spare VA.
[[nodiscard]] std::uint32_t sensible_sizes(const ExactProblem& problem, const ExactProblem::Unit& unit);

// Whether cables of a wiring without volts might well lose more than the spare VA: then the rows are worth their time.
[[nodiscard]] bool is_tight(const ExactProblem& problem, const ExactProblem::Unit& unit);

// Rows that keep the losses within the spare VA. `ends`: points at which a cable may end; `classes`: of current, of
// each size. Every wiring that the transformer can feed satisfies them.
void keep_losses(const ExactProblem& problem, const ExactProblem::Unit& unit, const std::vector<std::uint32_t>& ends,
                 std::uint32_t classes, LinearProgram& program);

}  // namespace duskwire::wiring
