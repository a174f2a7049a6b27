// SPDX-License-Identifier: Apache-2.0
// The mixed-integer program of a small site, and the bound that a solver proves with it.
#pragma once

#include <cstdint>
#include <optional>

#include "wiring/exact_problem.hpp"
#include "wiring/linear_program.hpp"

namespace duskwire::wiring {

// Without volts the program is far easier, its bound holds with volts too, and its optimum is the optimum wherever it
// happens to keep every window.
enum class Volts : std::uint8_t { left_out = 0, kept = 1 };

[[nodiscard]] LinearProgram exact_model(const ExactProblem& problem, const ExactProblem::Unit& unit, Volts volts);

struct ExactBound {
  double bound = 0;     // no wiring over these points and ways costs less
  bool proven = false;  // as high as it can be, within the tolerance
};

// `known_cost`: of a wiring over these points and ways. Empty where the solver says nothing.
[[nodiscard]] std::optional<ExactBound> exact_bound(const ExactProblem& problem, double known_cost,
                                                    const ProgramSolver& solver);

}  // namespace duskwire::wiring
