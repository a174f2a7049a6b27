// SPDX-License-Identifier: Apache-2.0
// The list of materials as tables: one to order by, one to cut by.
#pragma once

#include "base/table_data.hpp"
#include "estimate/materials.hpp"

namespace duskwire::estimate {

// One row per line of the list.
[[nodiscard]] TableData materials_table(const Materials& list);

// One row per cut, in the order of the cutter's list.
[[nodiscard]] TableData cut_table(const Materials& list);

}  // namespace duskwire::estimate
