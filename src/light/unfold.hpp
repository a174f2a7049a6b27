// SPDX-License-Identifier: Apache-2.0
// From the planes a file lists to the whole table, by the file's symmetry.
#pragma once

#include "light/intensity_file.hpp"

namespace duskwire::light {

// Precondition: angles ascend and stay in range, the table is full.
[[nodiscard]] Distribution unfold(const ListedTable& listed);

// A whole table as one listed without symmetry (or as axial), to be written.
[[nodiscard]] ListedTable listed_from(const Distribution& distribution);

}  // namespace duskwire::light
