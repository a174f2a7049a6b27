// SPDX-License-Identifier: Apache-2.0
// Today's wiring and the planned one side by side, figure by figure.
#pragma once

#include <string>

#include "cli/text_style.hpp"
#include "study/route.hpp"

namespace duskwire::cli {

// Today's alone where nothing was planned.
[[nodiscard]] std::string comparison(const study::RouteAnswer& answer, const std::string& currency,
                                     const TextStyle& style);

}  // namespace duskwire::cli
