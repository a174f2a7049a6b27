// SPDX-License-Identifier: Apache-2.0
#include "formats/export_texts.hpp"

#include <fmt/format.h>

#include "formats/export_tables.hpp"
#include "formats/schema.hpp"
#include "formats/table_csv.hpp"

namespace duskwire::formats {
namespace {

constexpr const char* schema_name = "schema/job-v1.schema.json";

constexpr const char* head = R"(
This archive holds a garden lighting job whole. No program is needed to read it.

job.json      the job itself, UTF-8: format "duskwire-job", version 1. Everything else is made from it.
pictures/     its pictures as they were stored; each name is the SHA-256 of the content, as the job refers to it
papers/       the papers as PDF, where the program that wrote this archive could make them
tables/       each schedule as CSV, described below
schema/       JSON Schema (draft 2020-12) of job.json: each key, its type and its range
SHA256SUMS    SHA-256 of every other file. To check: sha256sum -c SHA256SUMS

UNITS
SI throughout. The end of a name is its unit:
  _m metres, _mm2 square millimetres, _v volts, _a amperes, _w watts, _va volt-amperes, _ohm ohms, _deg degrees,
  _pct per cent, _min minutes, _h hours, _lm lumens, _cd candela, _lx lux, _k kelvin
In job.json money is a whole number of the currency's smallest unit (_minor). In the tables it has its decimals.
Dates and times are ISO 8601. Places are metres on the plan: x east, y north, z up.
Calculated values are estimates for the job as it stood when this archive was written.

TABLES
UTF-8, cells separated by commas, rows ended by CRLF (RFC 4180). The first row names the columns. Numbers have a point
and up to three decimals; an empty cell is not known. A text that a spreadsheet would take for a formula begins with
an apostrophe, which is not part of it.
)";

std::string described(const TableData& table) {
  std::string text = fmt::format("\ntables/{}.csv\n", table.id);
  for (const TableColumn& column : table.columns) {
    text += fmt::format("  {:<18}{}.\n", column.key, meaning_of(table.id, column.key));
  }
  return text;
}

// On one line, whatever the title holds.
std::string one_line(std::string text) {
  for (char& c : text) {
    if (static_cast<unsigned char>(c) < 0x20 || c == 0x7f) c = ' ';
  }
  return text;
}

}  // namespace

std::vector<ExportText> export_texts(const std::string& title, const std::vector<TableData>& tables) {
  std::string readme = (title.empty() ? "A garden lighting job" : one_line(title)) + "\n" + head;
  std::vector<ExportText> texts{{"README.txt", ""}};
  for (const TableData& table : tables) {
    readme += described(table);
    texts.push_back({"tables/" + table.id + ".csv", table_csv(table)});
  }
  texts.front().text = std::move(readme);
  texts.push_back({schema_name, job_schema()});
  return texts;
}

}  // namespace duskwire::formats
