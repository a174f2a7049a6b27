// SPDX-License-Identifier: Apache-2.0
// Sections that papers have in common.
#pragma once

#include <string>

#include "paper/document.hpp"

namespace duskwire::paper {

// Pages of running text: upright, with more white at the right than a drawing has.
[[nodiscard]] Section text_section(PageSize size);

// What a paper that sells or hands over must say of low voltage; one thing an item.
[[nodiscard]] List cautions_for_owners();

}  // namespace duskwire::paper
