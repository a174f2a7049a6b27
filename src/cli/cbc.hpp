// SPDX-License-Identifier: Apache-2.0
// CBC (COIN-OR branch and cut), run as a process on a linear program: the exact solver of `duskwire route --exact`.
#pragma once

#include <optional>

#include "wiring/linear_program.hpp"

namespace duskwire::cli {

// Found on the search path. Empty where it is not installed, or ends before it knows anything.
[[nodiscard]] std::optional<wiring::ProgramAnswer> solve_with_cbc(const wiring::LinearProgram& program,
                                                                  const wiring::SolveOptions& options);

}  // namespace duskwire::cli
