// SPDX-License-Identifier: Apache-2.0
// Transformers and their outputs as text: load against rating and limit, lamp volts, whether a far short would trip.
#pragma once

#include <string>

#include "cli/names.hpp"
#include "cli/text_style.hpp"
#include "study/report.hpp"

namespace duskwire::cli {

[[nodiscard]] std::string outputs_page(const study::Report& report, const Names& names, const TextStyle& style);

// Every cable with its amps and drop, and the volts of each corner: the long form of the report.
[[nodiscard]] std::string cables_page(const study::Report& report, const TextStyle& style);
[[nodiscard]] std::string corners_page(const study::Report& report, const TextStyle& style);

}  // namespace duskwire::cli
