// SPDX-License-Identifier: Apache-2.0
// Reads a EULUMDAT file of intensities (Stockmar, Licht '90, pp. 641-644).
#pragma once

#include <string_view>

#include "light/intensity_file.hpp"

namespace duskwire::light {

[[nodiscard]] ReadIntensities read_eulumdat(std::string_view text);

}  // namespace duskwire::light
