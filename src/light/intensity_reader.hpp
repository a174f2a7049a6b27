// SPDX-License-Identifier: Apache-2.0
// Reads a file of light intensities whose kind is seen from its text.
#pragma once

#include <string_view>

#include "light/intensity_file.hpp"

namespace duskwire::light {

[[nodiscard]] ReadIntensities read_intensities(std::string_view text);

}  // namespace duskwire::light
