// SPDX-License-Identifier: Apache-2.0
// The numbers of a problem's readings beside what a sound network would show, without weighing any fault: quick enough
// to ask at every key that is pressed.
#pragma once

#include <vector>

#include "diagnosis/answer.hpp"
#include "diagnosis/model.hpp"

namespace duskwire::diagnosis {

// `explained` is what the plan says, and no reading is called wrong.
[[nodiscard]] std::vector<Compared> beside_plan(const Model& model);
[[nodiscard]] std::vector<Compared> beside_plan(const FaultProblem& problem);

}  // namespace duskwire::diagnosis
