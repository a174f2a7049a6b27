// SPDX-License-Identifier: Apache-2.0
// Problems as JSON: severity, pointer, value, expected, message.
#pragma once

#include "base/problem.hpp"
#include "formats/json_text.hpp"

namespace duskwire::formats {

[[nodiscard]] Json problems_json(const Problems& problems);

}  // namespace duskwire::formats
