// SPDX-License-Identifier: Apache-2.0
// The schedules of a job as tables for an export: one row a thing, SI units, each column with its meaning. Who opens
// the file in fifteen years has a spreadsheet, not this program.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/table_data.hpp"
#include "estimate/materials.hpp"
#include "estimate/price.hpp"
#include "job/job.hpp"
#include "study/report.hpp"

namespace duskwire::formats {

// "lamps", "cables", "joints", "outputs", "transformers", "materials", "cut-list", "price", "readings": each is there,
// with its head, also where it has no rows. `report`, `materials` and `price` are those of the job.
[[nodiscard]] std::vector<TableData> export_tables(const job::Job& job, const job::Catalogue& stock,
                                                   const study::Report& report, const estimate::Materials& materials,
                                                   const estimate::Price& price);

// What a column of these tables says, as a sentence without its full stop; empty where there is no such column.
[[nodiscard]] std::string_view meaning_of(std::string_view table, std::string_view column);

}  // namespace duskwire::formats
