// SPDX-License-Identifier: Apache-2.0
// Levels as JSON, keys as its fields are called: docs/results.md. Numbers have as many figures as they are worth, so
// that the plan of a garden stays small.
#pragma once

#include "formats/json_text.hpp"
#include "study/levels.hpp"

namespace duskwire::formats {

[[nodiscard]] Json levels_json(const study::Levels& levels);

[[nodiscard]] Json level_sets_json(const study::LevelSets& sets);

}  // namespace duskwire::formats
