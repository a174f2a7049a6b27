// SPDX-License-Identifier: Apache-2.0
// The stock catalogue and the US ruleset that come with the program, read once.
#pragma once

#include "job/catalogue.hpp"
#include "study/rules.hpp"

namespace duskwire::sites {

[[nodiscard]] const job::Catalogue& stock();
[[nodiscard]] const study::Ruleset& us_rules();

}  // namespace duskwire::sites
