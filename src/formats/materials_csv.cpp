// SPDX-License-Identifier: Apache-2.0
#include "formats/materials_csv.hpp"

#include <initializer_list>

#include "base/currency.hpp"
#include "formats/csv_text.hpp"

namespace duskwire::formats {
namespace {

CsvText with_head(std::initializer_list<const char*> names) {
  CsvText csv;
  for (const char* name : names) csv.text(name);
  csv.end_row();
  return csv;
}

}  // namespace

std::string materials_csv(const estimate::Materials& list) {
  CsvText csv = with_head(
      {"category", "item", "title", "quantity", "unit", "unit_price", "price", "currency", "labour_min", "note"});
  for (const estimate::MaterialLine& line : list.lines) {
    csv.text(estimate::category_name(line.category))
        .text(line.item)
        .text(line.title)
        .number(line.quantity)
        .text(line.unit)
        .amount(decimal_amount(line.unit_price_minor, list.currency))
        .amount(decimal_amount(line.price_minor, list.currency))
        .text(list.currency)
        .number(line.labour_min)
        .text(line.note)
        .end_row();
  }
  return csv.str();
}

std::string cut_list_csv(const estimate::Materials& list) {
  CsvText csv = with_head({"tag", "item", "from", "from_name", "to", "to_name", "route_m", "slack_from_m", "slack_to_m",
                           "cut_m", "reel", "running_m"});
  for (const estimate::Cut& cut : list.cuts) {
    csv.text(cut.tag)
        .text(cut.item)
        .text(cut.from)
        .text(cut.from_name)
        .text(cut.to)
        .text(cut.to_name)
        .number(cut.route_m)
        .number(cut.slack_from_m)
        .number(cut.slack_to_m)
        .number(cut.cut_m)
        .count(cut.reel)
        .number(cut.running_m)
        .end_row();
  }
  return csv.str();
}

}  // namespace duskwire::formats
