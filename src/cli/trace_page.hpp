// SPDX-License-Identifier: Apache-2.0
// A traced network as text for people: which lamp hangs where and how sure that is, runs with their cable and amperes,
// what does not fit, what to look at next.
#pragma once

#include <string>

#include "cli/text_style.hpp"
#include "job/job.hpp"
#include "study/trace.hpp"

namespace duskwire::cli {

struct TracePage {
  const job::Job& job;
  const study::Traced& traced;
  bool is_written = false;  // the rough network goes into a file
};

[[nodiscard]] std::string trace_text(const TracePage& page, const TextStyle& style);

}  // namespace duskwire::cli
