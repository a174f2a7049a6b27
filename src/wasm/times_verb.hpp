// SPDX-License-Identifier: Apache-2.0
// The verb `times` for the page, which hands over its zone: the browser knows when its clocks change.
#pragma once

#include "wasm/verbs.hpp"

namespace duskwire::wasm {

[[nodiscard]] Reply times(const std::vector<std::string_view>& given);  // job, request

}  // namespace duskwire::wasm
