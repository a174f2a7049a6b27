// SPDX-License-Identifier: Apache-2.0
// Reads an LM-63 file of intensities (editions 1986, 1991, 1995, 2002, 2019; types A, B, C).
#pragma once

#include <string_view>

#include "light/intensity_file.hpp"

namespace duskwire::light {

[[nodiscard]] ReadIntensities read_lm63(std::string_view text);

// What the number between ballast factor and watts says from 2019 on: how the file came about. "" where it is no code.
[[nodiscard]] std::string file_origin_2019(double slot12);

}  // namespace duskwire::light
