// SPDX-License-Identifier: Apache-2.0
// What the engine for the page reads once and keeps: the stock catalogue and the rulesets that come with it.
#pragma once

#include <string>
#include <vector>

#include "job/catalogue.hpp"
#include "job/site.hpp"
#include "study/rules.hpp"

namespace duskwire::wasm {

[[nodiscard]] const job::Catalogue& stock();

// Null where there is none of that id.
[[nodiscard]] const study::Ruleset* ruleset_of(const std::string& id);

// Cables of the stock that are sold by gauge, or those sold by area; thinnest first.
[[nodiscard]] std::vector<job::CableItem> sizes_to_choose(job::DisplayUnits units);

}  // namespace duskwire::wasm
