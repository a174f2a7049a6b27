// SPDX-License-Identifier: Apache-2.0
// A polar plot in characters: how far the light reaches each way, in the planes of C 0-180 and C 90-270.
#pragma once

#include <string>

#include "cli/text_style.hpp"
#include "light/photometry.hpp"

namespace duskwire::cli {

// Lines with line ends. Only the half that has light is drawn where the other has none.
[[nodiscard]] std::string polar_plot(const light::Photometry& light, const TextStyle& style);

}  // namespace duskwire::cli
