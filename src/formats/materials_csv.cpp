// SPDX-License-Identifier: Apache-2.0
#include "formats/materials_csv.hpp"

#include "estimate/material_tables.hpp"
#include "formats/table_csv.hpp"

namespace duskwire::formats {

std::string materials_csv(const estimate::Materials& list) { return table_csv(estimate::materials_table(list)); }

std::string cut_list_csv(const estimate::Materials& list) { return table_csv(estimate::cut_table(list)); }

}  // namespace duskwire::formats
