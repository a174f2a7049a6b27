// SPDX-License-Identifier: Apache-2.0
// A planned wiring as text: beside today's, why each run is as it is, what stands in the way, and a last line that says
// it all in short.
#pragma once

#include <string>

#include "cli/text_style.hpp"
#include "job/job.hpp"
#include "study/route.hpp"

namespace duskwire::cli {

struct RoutePage {
  const job::Job& job;  // today's
  const study::RouteAnswer& answer;
  bool is_written = false;  // a planned job goes to a file
  std::string proof;        // how far the plan is from the best; empty: not asked for
};

[[nodiscard]] std::string route_text(const RoutePage& page, const TextStyle& style);

// The last line: cost, metres dug, metres of cable, joints, worst volts; fits 80 columns.
[[nodiscard]] std::string route_summary(const RoutePage& page, const TextStyle& style);

}  // namespace duskwire::cli
