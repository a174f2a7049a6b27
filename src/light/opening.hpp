// SPDX-License-Identifier: Apache-2.0
// The luminous opening of an LM-63 file: its shape hides in the signs of three sizes.
#pragma once

#include <array>

#include "light/intensity_file.hpp"

namespace duskwire::light {

// width, length, height as written, in metres with their signs.
[[nodiscard]] Opening opening_from_signs(IntensityFormat format, std::array<double, 3> size_m);

// The other way round, by the signs of 2002.
[[nodiscard]] std::array<double, 3> signed_size_2002(const Opening& opening);

[[nodiscard]] const char* words_of(OpeningShape shape);

}  // namespace duskwire::light
