// SPDX-License-Identifier: Apache-2.0
#include "estimate/material_tables.hpp"

#include <string>

namespace duskwire::estimate {
namespace {

constexpr const char* estimate_note = "An estimate for an order. Measure before cutting.";

}  // namespace

TableData materials_table(const Materials& list) {
  TableData table;
  table.id = "materials";
  table.title = "Materials";
  table.currency = list.currency;
  table.note = estimate_note;
  table.columns = {{"category", "Category", ColumnKind::text},
                   {"item", "Item", ColumnKind::text},
                   {"title", "Title", ColumnKind::text},
                   {"quantity", "Quantity", ColumnKind::number},
                   {"unit", "Unit", ColumnKind::text},
                   {"unit_price", "Unit price", ColumnKind::money},
                   {"price", "Price", ColumnKind::money},
                   {"currency", "Currency", ColumnKind::text},
                   {"labour_min", "Labour, min", ColumnKind::number},
                   {"note", "For", ColumnKind::text}};
  for (const MaterialLine& line : list.lines) {
    table.rows.push_back({std::string(category_name(line.category)), line.item, line.title, line.quantity, line.unit,
                          line.unit_price_minor, line.price_minor, list.currency, line.labour_min, line.note});
  }
  return table;
}

TableData cut_table(const Materials& list) {
  TableData table;
  table.id = "cut-list";
  table.title = "Cut list";
  table.note = estimate_note;
  table.columns = {{"tag", "Tag", ColumnKind::text},
                   {"item", "Cable", ColumnKind::text},
                   {"from", "From", ColumnKind::text},
                   {"from_name", "From, name", ColumnKind::text},
                   {"to", "To", ColumnKind::text},
                   {"to_name", "To, name", ColumnKind::text},
                   {"route_m", "Route, m", ColumnKind::number},
                   {"slack_from_m", "Slack from, m", ColumnKind::number},
                   {"slack_to_m", "Slack to, m", ColumnKind::number},
                   {"cut_m", "Cut, m", ColumnKind::number},
                   {"reel", "Reel", ColumnKind::count},
                   {"running_m", "Running total, m", ColumnKind::number}};
  for (const Cut& cut : list.cuts) {
    table.rows.push_back({cut.tag, cut.item, cut.from, cut.from_name, cut.to, cut.to_name, cut.route_m,
                          cut.slack_from_m, cut.slack_to_m, cut.cut_m, std::int64_t{cut.reel}, cut.running_m});
  }
  return table;
}

}  // namespace duskwire::estimate
