// SPDX-License-Identifier: Apache-2.0
// The verbs of a service call for the page: where a fault sits, and readings beside the plan.
#pragma once

#include "wasm/verbs.hpp"

namespace duskwire::wasm {

[[nodiscard]] Reply trace(const std::vector<std::string_view>& given);     // job, what was walked
[[nodiscard]] Reply locate(const std::vector<std::string_view>& given);    // job, request
[[nodiscard]] Reply readings(const std::vector<std::string_view>& given);  // job, request

}  // namespace duskwire::wasm
