// SPDX-License-Identifier: Apache-2.0
// A paper as files: one drawing code, three forms. The same document gives the same bytes.
#pragma once

#include <string>
#include <vector>

#include "base/result.hpp"
#include "paper/document.hpp"
#include "paper/layout.hpp"

namespace duskwire::paper {

// Errors: unavailable where the drawing library gives up.
[[nodiscard]] Result<std::string> pdf_of(const LaidOut& pages);
[[nodiscard]] Result<std::string> svg_of(const LaidOut& pages, std::size_t page);
[[nodiscard]] Result<std::string> png_of(const LaidOut& pages, std::size_t page, double dots_per_inch = 110);

}  // namespace duskwire::paper
