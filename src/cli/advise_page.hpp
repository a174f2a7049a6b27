// SPDX-License-Identifier: Apache-2.0
// Advice as text: per output the taps with their volts and why, then transformers, then protection.
#pragma once

#include <string>

#include "cli/text_style.hpp"
#include "job/job.hpp"
#include "study/advise.hpp"

namespace duskwire::cli {

// True where every output has a tap that holds and every transformer offered does.
[[nodiscard]] bool is_served(const study::Advice& advice);

[[nodiscard]] std::string advice_text(const job::Job& job, const study::Advice& advice, const TextStyle& style);

}  // namespace duskwire::cli
