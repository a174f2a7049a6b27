// SPDX-License-Identifier: Apache-2.0
// The mixed-integer program of a small site, and the wiring that one of its solutions means.
#pragma once

#include "sites/linear_program.hpp"
#include "sites/optimum.hpp"
#include "sites/wiring_sketch.hpp"

namespace duskwire::sites {

[[nodiscard]] LinearProgram optimum_model(const OptimumProblem& problem);

[[nodiscard]] WiringSketch sketch_of(const OptimumProblem& problem, const std::map<std::string, double>& values);

}  // namespace duskwire::sites
