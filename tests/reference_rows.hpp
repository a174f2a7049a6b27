// SPDX-License-Identifier: Apache-2.0
// Reads the tables of tests/reference: CSV with a head, quotes allowed. A missing file, column or number throws, so
// that a reference test cannot pass for want of rows.
#pragma once

#include <map>
#include <string>
#include <vector>

namespace duskwire {

class ReferenceRow {
 public:
  explicit ReferenceRow(std::map<std::string, std::string> cells) : cells_(std::move(cells)) {}
  [[nodiscard]] const std::string& text(const std::string& column) const { return cells_.at(column); }
  [[nodiscard]] bool has(const std::string& column) const { return !text(column).empty(); }
  [[nodiscard]] double number(const std::string& column) const;

 private:
  std::map<std::string, std::string> cells_;
};

// All rows of tests/reference/<name>; never empty.
[[nodiscard]] std::vector<ReferenceRow> reference_rows(const std::string& name);

}  // namespace duskwire
