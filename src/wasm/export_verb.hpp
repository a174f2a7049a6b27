// SPDX-License-Identifier: Apache-2.0
// What the page puts into an exported job beside document, pictures and papers.
#pragma once

#include <string_view>
#include <vector>

#include "wasm/verbs.hpp"

namespace duskwire::wasm {

// Document -> list of {name, text}: README.txt, each schedule as CSV, the schema.
[[nodiscard]] Reply export_texts(const std::vector<std::string_view>& given);

}  // namespace duskwire::wasm
