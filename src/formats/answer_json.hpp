// SPDX-License-Identifier: Apache-2.0
// The answer to a quick question as JSON, keys as its fields are called: docs/results.md.
#pragma once

#include "formats/json_text.hpp"
#include "study/ask.hpp"

namespace duskwire::formats {

[[nodiscard]] Json answer_json(const study::Answer& answer);

}  // namespace duskwire::formats
