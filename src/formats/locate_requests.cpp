// SPDX-License-Identifier: Apache-2.0
#include "formats/locate_requests.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <optional>
#include <vector>

#include "base/decimal.hpp"
#include "formats/csv_table.hpp"
#include "formats/json_text.hpp"
#include "formats/shape_visit.hpp"
#include "formats/type_names.hpp"

namespace duskwire::formats {

constexpr const char* type_name(Of<study::LocateOptions>) { return "locate request"; }

template <class Visitor>
void describe(Of<study::LocateOptions>, Visitor& v) {
  using T = study::LocateOptions;
  v.field("visit", &T::visit, Number{0, 5000, ""}, optional, "Index of the visit; left out: the last with readings");
  v.field("readings", &T::readings, List{10'000}, optional, "Readings beside those of the visit");
  v.field("readings_alone", &T::readings_alone, Flag{}, optional, "Leave the visit's own readings out");
  v.field("ranking_alone", &T::ranking_alone, Flag{}, optional, "Say nothing of what to read next");
}

}  // namespace duskwire::formats

// After the shapes that it reads.
#include "formats/read_request.hpp"

namespace duskwire::formats {
namespace {

constexpr const char* reading_columns[] = {"place",   "quantity", "value",  "unit", "seen", "load",
                                           "clamped", "at",       "lifted", "time", "note"};

std::string without_blanks(const std::string& text) {
  const std::size_t begin = text.find_first_not_of(" \t");
  if (begin == std::string::npos) return "";
  return text.substr(begin, text.find_last_not_of(" \t") - begin + 1);
}

struct ReadingTable {
  Json readings = Json::array();
  std::vector<std::size_t> lines;  // by reading
  Problems problems;
};

bool is_column(const std::string& name) {
  return std::any_of(std::begin(reading_columns), std::end(reading_columns),
                     [&](const char* known) { return name == known; });
}

void read_row(const CsvRow& head, const CsvRow& row, ReadingTable& table) {
  Json reading = Json::object();
  for (std::size_t c = 0; c < std::min(head.cells.size(), row.cells.size()); ++c) {
    const std::string name = without_blanks(head.cells[c]);
    const std::string cell = without_blanks(row.cells[c]);
    if (cell.empty() || !is_column(name)) continue;
    if (name != "value") {
      reading[name] = cell;
      continue;
    }
    const LeadingNumber number = leading_number(cell);
    if (number.length == cell.size()) {
      reading[name] = number.value;
    } else {
      table.problems.push_back({Severity::error, csv_place(row.line, c + 1), cell, "a number",
                                fmt::format("Line {}: \"{}\" is not a number.", row.line, cell)});
    }
  }
  table.readings.push_back(std::move(reading));
  table.lines.push_back(row.line);
}

// "/readings/3/quantity" as "line 5, quantity".
void name_lines(const ReadingTable& table, Problems& problems) {
  constexpr std::string_view start = "/readings/";
  for (Problem& problem : problems) {
    if (!problem.pointer.starts_with(start)) continue;
    const std::string rest = problem.pointer.substr(start.size());
    const std::size_t at = static_cast<std::size_t>(std::strtoul(rest.c_str(), nullptr, 10));
    if (at >= table.lines.size()) continue;
    const std::size_t slash = rest.find('/');
    problem.pointer =
        fmt::format("line {}{}", table.lines[at], slash == std::string::npos ? "" : ", " + rest.substr(slash + 1));
  }
}

}  // namespace

ReadRequest<study::LocateOptions> read_locate_request(std::string_view text) {
  return read_request<study::LocateOptions>(
      text, [](Context& context, const Json& tree, study::LocateOptions& out) { read_shape(context, tree, out); });
}

ReadRequest<study::LocateOptions> read_readings_csv(std::string_view text) {
  CsvTable csv = read_csv(text);
  ReadingTable table;
  table.problems = std::move(csv.problems);
  if (csv.rows.empty()) {
    table.problems.push_back({Severity::error, csv_place(1, 1), "", "a first line such as place,quantity,value,unit",
                              "The table of readings is empty."});
    return {std::nullopt, std::move(table.problems)};
  }
  for (std::size_t c = 0; c < csv.rows.front().cells.size(); ++c) {
    const std::string name = without_blanks(csv.rows.front().cells[c]);
    if (is_column(name) || name.empty()) continue;
    table.problems.push_back({Severity::warning, csv_place(csv.rows.front().line, c + 1), name,
                              "place, quantity, value, unit, seen, load, clamped, at, lifted, time or note",
                              fmt::format("The column \"{}\" is passed over.", name)});
  }
  for (std::size_t r = 1; r < csv.rows.size(); ++r) read_row(csv.rows.front(), csv.rows[r], table);
  Json request = Json::object();
  request["readings"] = table.readings;
  ReadRequest<study::LocateOptions> read = read_locate_request(compact_text(request));
  name_lines(table, read.problems);
  read.problems.insert(read.problems.begin(), table.problems.begin(), table.problems.end());
  if (has_errors(read.problems)) read.request.reset();
  return read;
}

}  // namespace duskwire::formats
