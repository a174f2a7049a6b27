// SPDX-License-Identifier: Apache-2.0
// The mixed-integer program of a small site, and the wiring that one of its solutions means.
#pragma once

#include <cstdint>

#include "sites/linear_program.hpp"
#include "sites/optimum.hpp"
#include "sites/wiring_sketch.hpp"

namespace duskwire::sites {

// Without volts the program is far easier, and its optimum is the optimum wherever it happens to keep every window.
enum class Volts : std::uint8_t { left_out = 0, kept = 1 };

[[nodiscard]] LinearProgram optimum_model(const OptimumProblem& problem, const OptimumProblem::Unit& unit, Volts volts);

[[nodiscard]] WiringSketch sketch_of(const OptimumProblem& problem, const OptimumProblem::Unit& unit,
                                     const std::map<std::string, double>& values);

}  // namespace duskwire::sites
