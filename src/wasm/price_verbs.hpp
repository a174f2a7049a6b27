// SPDX-License-Identifier: Apache-2.0
// The verbs of the price for the page: what a job costs, why that moved, and the band before there is a job.
#pragma once

#include "wasm/verbs.hpp"

namespace duskwire::wasm {

[[nodiscard]] Reply price(const std::vector<std::string_view>& given);             // job
[[nodiscard]] Reply price_difference(const std::vector<std::string_view>& given);  // job before, job after
[[nodiscard]] Reply price_band(const std::vector<std::string_view>& given);        // request
[[nodiscard]] Reply deposit_rules(const std::vector<std::string_view>& given);     // nothing

}  // namespace duskwire::wasm
