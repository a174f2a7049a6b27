// SPDX-License-Identifier: Apache-2.0
// From a job and a walk to a problem of the diagnosis, and what is wrong with the walk. Internal to the room; job and
// request must outlive it.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "diagnosis/trace.hpp"
#include "study/trace.hpp"

namespace duskwire::study {

struct TraceAsked {
  diagnosis::TraceProblem problem;
  Problems problems;
  std::vector<std::uint32_t> lamps;                       // luminaire of the job, by lamp of the problem
  std::vector<std::vector<const job::CableItem*>> items;  // by run: what its cable may be
  std::vector<std::string> left_out;                      // ids of luminaires without a place on the plan
};

[[nodiscard]] TraceAsked trace_problem(const job::Job& job, const job::Catalogue& stock, const TraceRequest& request);

}  // namespace duskwire::study
