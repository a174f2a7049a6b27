// SPDX-License-Identifier: Apache-2.0
// What stands at the foot of every page: a strip with whose paper it is and which page, or the title block of a drawing
// with its frame and revisions.
#pragma once

#include <cstddef>

#include "paper/document.hpp"
#include "paper/layout.hpp"

namespace duskwire::paper {

// What the foot leaves of a page for its blocks.
[[nodiscard]] Box area_above_foot(const Section& section, const Document& document);

// Adds the foot to a page; sheet counts from 1.
void put_foot(LaidPage& page, const Section& section, const Document& document, std::size_t sheet,
              std::size_t sheet_count);

}  // namespace duskwire::paper
