// SPDX-License-Identifier: Apache-2.0
// Advice as JSON, keys as its fields are called: docs/results.md.
#pragma once

#include "formats/json_text.hpp"
#include "study/advise.hpp"

namespace duskwire::formats {

[[nodiscard]] Json advice_json(const study::Advice& advice);

}  // namespace duskwire::formats
