// SPDX-License-Identifier: Apache-2.0
// What is asked of times and what comes out, as JSON: docs/results.md.
#pragma once

#include <string_view>

#include "formats/json_text.hpp"
#include "formats/requests.hpp"
#include "study/times.hpp"

namespace duskwire::formats {

// Hours to a thousandth, energy to a tenth of a watt-hour.
[[nodiscard]] Json times_json(const study::Times& times);

// {"year", "zone": {"name", "changes": [{"from_s", "offset_s", "abbreviation"}]}, "tariff", "days"}.
[[nodiscard]] ReadRequest<study::TimesRequest> read_times_request(std::string_view text);

}  // namespace duskwire::formats
