// SPDX-License-Identifier: Apache-2.0
#include "reference_rows.hpp"

#include <fstream>
#include <stdexcept>

namespace duskwire {
namespace {

std::vector<std::string> split(const std::string& line) {
  std::vector<std::string> cells(1);
  bool quoted = false;
  for (std::size_t i = 0; i < line.size(); ++i) {
    const char c = line[i];
    if (c == '"' && quoted && i + 1 < line.size() && line[i + 1] == '"') {
      cells.back() += line[++i];
    } else if (c == '"') {
      quoted = !quoted;
    } else if (c == ',' && !quoted) {
      cells.emplace_back();
    } else if (c != '\r') {
      cells.back() += c;
    }
  }
  return cells;
}

}  // namespace

double ReferenceRow::number(const std::string& column) const {
  const std::string& cell = text(column);
  std::size_t used = 0;
  const double value = std::stod(cell, &used);
  if (used != cell.size()) throw std::runtime_error("not a number in " + column + ": " + cell);
  return value;
}

std::vector<ReferenceRow> reference_rows(const std::string& name) {
  std::ifstream file(std::string(DUSKWIRE_SOURCE_DIR) + "/tests/reference/" + name);
  std::string line;
  if (!std::getline(file, line)) throw std::runtime_error("no reference file " + name);
  const std::vector<std::string> head = split(line);
  std::vector<ReferenceRow> rows;
  while (std::getline(file, line)) {
    const std::vector<std::string> cells = split(line);
    if (cells.size() != head.size()) throw std::runtime_error(name + ": wrong number of cells: " + line);
    std::map<std::string, std::string> row;
    for (std::size_t i = 0; i < head.size(); ++i) row[head[i]] = cells[i];
    rows.emplace_back(std::move(row));
  }
  if (rows.empty()) throw std::runtime_error(name + " has no rows");
  return rows;
}

}  // namespace duskwire
