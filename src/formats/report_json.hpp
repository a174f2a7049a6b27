// SPDX-License-Identifier: Apache-2.0
// Report as JSON, keys as its fields are called: docs/results.md.
#pragma once

#include "formats/json_text.hpp"
#include "study/report.hpp"

namespace duskwire::formats {

[[nodiscard]] Json report_json(const study::Report& report);

}  // namespace duskwire::formats
