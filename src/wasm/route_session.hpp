// SPDX-License-Identifier: Apache-2.0
// The search for a wiring, kept between the page's calls: the page lets it run for a while, shows how far it is, and
// takes the best so far whenever it likes. One search at a time.
#pragma once

#include <string_view>
#include <vector>

#include "wasm/verbs.hpp"

namespace duskwire::wasm {

using Texts = std::vector<std::string_view>;

// Document, request. Begins a search and ends the one before, also where it is refused.
[[nodiscard]] Reply route_begin(const Texts& given);
// Milliseconds, as JSON. Searches on for that long; answers earlier where nothing more is to be expected.
[[nodiscard]] Reply route_search(const Texts& given);
// The best so far, checked by the full solver. The search may go on.
[[nodiscard]] Reply route_answer(const Texts& given);
// Forgets the search, if there is one.
[[nodiscard]] Reply route_end(const Texts& given);

}  // namespace duskwire::wasm
