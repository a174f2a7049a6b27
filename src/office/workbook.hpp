// SPDX-License-Identifier: Apache-2.0
// Tables as a workbook (XLSX), one sheet each: title, head that stays in sight, filters, units in the heads, numbers as
// numbers. Text is written as text: nothing in it can run. The same tables give the same bytes.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "base/table_data.hpp"

namespace duskwire::office {

struct WorkbookNote {
  std::string title;               // of the whole document
  std::int64_t created_utc_s = 0;  // seconds of UTC since 1970
};

[[nodiscard]] Result<std::string> workbook(const std::vector<TableData>& tables, const WorkbookNote& note);

}  // namespace duskwire::office
