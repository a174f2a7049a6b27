// SPDX-License-Identifier: Apache-2.0
// A table as CSV, for a spreadsheet: the columns' keys as head, money as decimals, no cell that runs as a formula.
#pragma once

#include <string>

#include "base/table_data.hpp"

namespace duskwire::formats {

[[nodiscard]] std::string table_csv(const TableData& table);

}  // namespace duskwire::formats
