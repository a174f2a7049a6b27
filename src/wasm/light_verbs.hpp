// SPDX-License-Identifier: Apache-2.0
// The verbs of the light for the page: levels, the sets of levels, and the choice of lamps.
#pragma once

#include "wasm/verbs.hpp"

namespace duskwire::wasm {

[[nodiscard]] Reply levels(const std::vector<std::string_view>& given);      // job, options
[[nodiscard]] Reply level_sets(const std::vector<std::string_view>& given);  // nothing
[[nodiscard]] Reply choose(const std::vector<std::string_view>& given);      // job, target

}  // namespace duskwire::wasm
