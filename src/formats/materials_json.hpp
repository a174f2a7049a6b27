// SPDX-License-Identifier: Apache-2.0
// The list of materials as JSON: every field under its own name, lengths in metres, money in minor units.
#pragma once

#include <nlohmann/json.hpp>

#include "estimate/materials.hpp"

namespace duskwire::formats {

[[nodiscard]] nlohmann::ordered_json materials_json(const estimate::Materials& list);

}  // namespace duskwire::formats
