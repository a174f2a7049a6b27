// SPDX-License-Identifier: Apache-2.0
// A QR code as lines of a terminal, two rows of modules to a line.
#pragma once

#include <string>

#include "cli/text_style.hpp"

namespace duskwire::cli {

// Light modules are drawn, as terminals are mostly dark; with colour on, both are set outright. Empty where the text is
// too long for any code.
[[nodiscard]] std::string qr_text(const std::string& text, const TextStyle& style);

}  // namespace duskwire::cli
