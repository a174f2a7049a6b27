// SPDX-License-Identifier: Apache-2.0
// A planned wiring, and the progress of the search for it, as JSON: docs/results.md.
#pragma once

#include "formats/json_text.hpp"
#include "study/route.hpp"

namespace duskwire::formats {

// `job` is the planned job as a document, or null where nothing sound was found.
[[nodiscard]] Json route_answer_json(const study::RouteAnswer& answer);

// `more`: the search may still find something better.
[[nodiscard]] Json route_progress_json(const study::RouteProgress& progress, bool more);

}  // namespace duskwire::formats
