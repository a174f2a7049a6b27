// SPDX-License-Identifier: Apache-2.0
// The list of materials as tables for a spreadsheet: one to order by, one to cut by.
#pragma once

#include <string>

#include "estimate/materials.hpp"

namespace duskwire::formats {

// One row per line of the list; prices as decimals of the currency.
[[nodiscard]] std::string materials_csv(const estimate::Materials& list);

// One row per cut, in the order of the cutter's list; lengths in metres.
[[nodiscard]] std::string cut_list_csv(const estimate::Materials& list);

}  // namespace duskwire::formats
