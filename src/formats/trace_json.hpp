// SPDX-License-Identifier: Apache-2.0
// What trace is asked and answers as JSON, keys as its fields are called: docs/results.md.
#pragma once

#include <string_view>

#include "formats/json_text.hpp"
#include "formats/requests.hpp"
#include "study/trace.hpp"

namespace duskwire::formats {

[[nodiscard]] ReadRequest<study::TraceRequest> read_trace_request(std::string_view text);

[[nodiscard]] Json trace_json(const study::Traced& traced);

}  // namespace duskwire::formats
