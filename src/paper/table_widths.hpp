// SPDX-License-Identifier: Apache-2.0
// How wide each column of a table gets: what stands in it decides, unless the column says.
#pragma once

#include <vector>

#include "paper/document.hpp"

namespace duskwire::paper {

// Of the cells' text, without what is left white beside it. Their sum is at most `width_mm`.
[[nodiscard]] std::vector<double> column_widths_mm(const Table& table, double width_mm);

}  // namespace duskwire::paper
