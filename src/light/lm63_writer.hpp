// SPDX-License-Identifier: Apache-2.0
// Writes an intensity file as LM-63.
#pragma once

#include <string>

#include "light/intensity_file.hpp"

namespace duskwire::light {

// A file of LM-63-2019 stays one, with its file generation code; all others become LM-63-2002. All factors are in the
// table, so multiplier and ballast factor are 1. Intensities keep eight digits of the largest.
[[nodiscard]] std::string write_lm63(const IntensityFile& file);

// What a distribution without a file becomes: absolute photometry, a computer simulation by LM-63-2019.
[[nodiscard]] IntensityFile intensity_file_from(const Distribution& distribution, std::string luminaire,
                                                double power_w);

}  // namespace duskwire::light
