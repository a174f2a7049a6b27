// SPDX-License-Identifier: Apache-2.0
// The quick question: typed texts into a Question, and its answer as text.
#pragma once

#include <string>
#include <variant>

#include "cli/invocation.hpp"
#include "cli/text_style.hpp"
#include "study/ask.hpp"

namespace duskwire::cli {

// All slips of the pen, one sentence each.
struct Slips {
  std::vector<std::string> sentences;
};

// Cable by size: an article of `stock` where it has one of that size, else bare copper of that area.
[[nodiscard]] std::variant<study::Question, Slips> question_of(const AskRequest& request, job::DisplayUnits units,
                                                               const job::Catalogue& stock);

// Units as the length was typed; metric where that does not tell.
[[nodiscard]] job::DisplayUnits units_of(const AskRequest& request);

[[nodiscard]] std::string answer_text(const study::Question& question, const study::Answer& answer,
                                      const TextStyle& style);

}  // namespace duskwire::cli
