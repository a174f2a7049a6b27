// SPDX-License-Identifier: Apache-2.0
// Report as JSON, keys as its fields are called: docs/results.md.
#pragma once

#include <string>

#include "formats/json_text.hpp"
#include "study/report.hpp"

namespace duskwire::formats {

[[nodiscard]] Json report_json(const study::Report& report);

// Appends the same as compact_text(report_json(report)), in a fraction of the time.
void append_report(std::string& out, const study::Report& report);

}  // namespace duskwire::formats
