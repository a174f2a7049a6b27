// SPDX-License-Identifier: Apache-2.0
// A choice of lamps as JSON, keys as its fields are called: docs/results.md.
#pragma once

#include "formats/json_text.hpp"
#include "study/choose.hpp"

namespace duskwire::formats {

[[nodiscard]] Json choice_json(const study::Choice& choice);

}  // namespace duskwire::formats
