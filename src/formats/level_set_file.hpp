// SPDX-License-Identifier: Apache-2.0
// A set of levels read from its file, and those that come with the program.
#pragma once

#include <optional>
#include <string_view>

#include "base/problem.hpp"
#include "study/level_targets.hpp"

namespace duskwire::formats {

struct ReadLevelSet {
  std::optional<study::LevelSet> set;  // only where no problem is an error
  Problems problems;
};

[[nodiscard]] ReadLevelSet read_level_set(std::string_view text);

// All of data/levels, those for gardens first. Throws where this build's own file is broken, which its tests rule out.
[[nodiscard]] const study::LevelSets& embedded_level_sets();

}  // namespace duskwire::formats
