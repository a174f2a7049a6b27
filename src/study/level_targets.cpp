// SPDX-License-Identifier: Apache-2.0
#include "study/level_targets.hpp"

#include <algorithm>

namespace duskwire::study {

const LevelSet* find_set(const LevelSets& sets, const std::string& id) {
  const auto found = std::find_if(sets.begin(), sets.end(), [&](const LevelSet& set) { return set.id == id; });
  return found == sets.end() ? nullptr : &*found;
}

const LevelTarget* chosen_target(const LevelSet& set, LitPlace place) {
  const auto found = std::find_if(set.targets.begin(), set.targets.end(),
                                  [&](const LevelTarget& target) { return target.place == place && target.chosen; });
  return found == set.targets.end() ? nullptr : &*found;
}

}  // namespace duskwire::study
