// SPDX-License-Identifier: Apache-2.0
// Where a fault sits as text for people: the verdict, causes, where to dig first, what to read next, readings beside
// the plan.
#pragma once

#include <string>

#include "cli/text_style.hpp"
#include "job/job.hpp"
#include "study/locate.hpp"

namespace duskwire::cli {

[[nodiscard]] std::string locate_text(const job::Job& job, const study::Located& located, const TextStyle& style);

}  // namespace duskwire::cli
