// SPDX-License-Identifier: Apache-2.0
// The answer to a quick question as one or two sentences. Internal to the room.
#pragma once

#include <string>

#include "study/ask.hpp"

namespace duskwire::study {

[[nodiscard]] std::string answer_words(const Question& question, const Answer& answer, job::DisplayUnits units);

}  // namespace duskwire::study
