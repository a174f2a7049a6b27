// SPDX-License-Identifier: Apache-2.0
// Times as text for people: when the lights go on and off through the year, the card for the timer, hours, energy.
#pragma once

#include <string>

#include "cli/text_style.hpp"
#include "job/job.hpp"
#include "study/times.hpp"

namespace duskwire::cli {

// `full`: each day of the year instead of three days a month.
[[nodiscard]] std::string times_text(const job::Job& job, const study::Times& times, bool full, const TextStyle& style);

}  // namespace duskwire::cli
