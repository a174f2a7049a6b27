// SPDX-License-Identifier: Apache-2.0
// The report of a check as text for people: verdict first, then outputs, lamps, findings, margins, and what the numbers
// rest on.
#pragma once

#include <string>

#include "cli/text_style.hpp"
#include "job/job.hpp"
#include "study/report.hpp"
#include "study/rules.hpp"

namespace duskwire::cli {

enum class Detail { brief, usual, full };

struct CheckPage {
  const job::Job& job;
  const study::Report& report;
  const study::Ruleset& ruleset;
};

[[nodiscard]] std::string check_text(const CheckPage& page, Detail detail, const TextStyle& style);

// Two lines that end every page with computed numbers.
[[nodiscard]] std::string cautions(const TextStyle& style);

}  // namespace duskwire::cli
