// SPDX-License-Identifier: Apache-2.0
// Draws the rough network into a copy of the job: a joint where lamps are spliced or ways part, cables along what was
// walked, each lamp on its joint. Internal to the room.
#pragma once

#include <vector>

#include "study/trace_problem.hpp"

namespace duskwire::study {

struct TraceDrawn {
  job::Job job;
  std::vector<std::vector<PartFound>> parts;  // by run
  std::vector<double> blind_m;                // by run: walked beyond its last lamp
};

// `cable`: by run, which of its items it is drawn as.
[[nodiscard]] TraceDrawn draw_trace(const job::Job& job, const TraceRequest& request, const TraceAsked& asked,
                                    const diagnosis::TraceAnswer& answer, const std::vector<std::size_t>& cable);

}  // namespace duskwire::study
