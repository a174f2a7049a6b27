// SPDX-License-Identifier: Apache-2.0
// What locate answers as JSON, keys as its fields are called: docs/results.md.
#pragma once

#include "formats/json_text.hpp"
#include "study/locate.hpp"

namespace duskwire::formats {

[[nodiscard]] Json locate_json(const study::Located& located);

// Only measured, predicted, difference and whether it is in tolerance: the log's own page.
[[nodiscard]] Json readings_json(const study::Located& located);

}  // namespace duskwire::formats
