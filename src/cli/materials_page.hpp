// SPDX-License-Identifier: Apache-2.0
// The list of materials as text: what to buy, how the cable adds up, what each joint takes, what to cut.
#pragma once

#include <string>

#include "cli/text_style.hpp"
#include "estimate/materials.hpp"
#include "job/job.hpp"

namespace duskwire::cli {

[[nodiscard]] std::string materials_text(const job::Job& job, const estimate::Materials& list, const TextStyle& style);

}  // namespace duskwire::cli
