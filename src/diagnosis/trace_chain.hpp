// SPDX-License-Identifier: Apache-2.0
// Draws choices of places for all lamps as often as their weight asks (Gibbs, with exchanges of two lamps between
// runs), and notes how often each place is taken. Several chains, each cooled down from a state where all is likely.
#pragma once

#include <cstdint>
#include <vector>

#include "diagnosis/trace_model.hpp"

namespace duskwire::diagnosis {

struct TraceChances {
  std::vector<double> of_choice;  // by choice of the model
  std::vector<double> unwalked;   // by lamp
};

[[nodiscard]] TraceChances draw_traces(TraceModel& model);

}  // namespace duskwire::diagnosis
