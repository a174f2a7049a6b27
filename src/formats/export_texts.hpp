// SPDX-License-Identifier: Apache-2.0
// The texts that an export holds beside the job: each schedule as CSV, the schema of job.json, and a README that says
// to a reader without any program what each file and each column is.
#pragma once

#include <string>
#include <vector>

#include "base/table_data.hpp"

namespace duskwire::formats {

struct ExportText {
  std::string name;  // in the archive: "tables/lamps.csv"
  std::string text;
};

// README.txt first, then the tables, then the schema. `title`: of the job.
[[nodiscard]] std::vector<ExportText> export_texts(const std::string& title, const std::vector<TableData>& tables);

}  // namespace duskwire::formats
