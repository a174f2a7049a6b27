// SPDX-License-Identifier: Apache-2.0
// An index whose entries ascend, and are the keys and row numbers of its table, is found right by every search. Both
// sides are compared by the sum of a hash of each entry, which does not depend on their order. The hash is one to one
// from step to step, so that a single wrong entry always shows; of more that cancel each other out one in 2^64 would
// not. It guards against damage; what another hand wrote is found by the chain of events.
#include "store/index_check.hpp"

#include <fmt/format.h>
#include <sqlite3.h>

#include <algorithm>
#include <cstdint>
#include <cstring>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace duskwire::store {
namespace {

struct Finalize {
  void operator()(sqlite3_stmt* statement) const { sqlite3_finalize(statement); }
};

// One value of a row, as long as the row is the present one.
struct Cell {
  int type = SQLITE_NULL;
  std::int64_t number = 0;
  std::string_view text;

  // As SQLite orders values. Its numbers of types are the other way round for none alone.
  [[nodiscard]] bool operator<(const Cell& other) const {
    if (type != other.type) return type == SQLITE_NULL || (other.type != SQLITE_NULL && type < other.type);
    return type == SQLITE_INTEGER ? number < other.number : text < other.text;
  }
};

// Straight from SQLite, and each value once: of a million saves some twenty million are read.
class Rows {
 public:
  Rows(SQLite::Database& database, const std::string& query) : connection_(database.getHandle()) {
    sqlite3_stmt* made = nullptr;
    const int status = sqlite3_prepare_v2(connection_, query.c_str(), -1, &made, nullptr);
    statement_.reset(made);
    if (status != SQLITE_OK) throw SQLite::Exception(connection_, status);
    cells_.resize(static_cast<std::size_t>(sqlite3_column_count(made)));
  }

  bool next() {
    const int status = sqlite3_step(statement_.get());
    if (status == SQLITE_DONE) return false;
    if (status != SQLITE_ROW) throw SQLite::Exception(connection_, status);
    for (std::size_t column = 0; column < cells_.size(); ++column) {
      sqlite3_value* value = sqlite3_column_value(statement_.get(), static_cast<int>(column));
      Cell& cell = cells_[column];
      cell.type = sqlite3_value_type(value);
      if (cell.type == SQLITE_INTEGER) {
        cell.number = sqlite3_value_int64(value);
      } else {
        const auto* bytes = static_cast<const char*>(sqlite3_value_blob(value));
        cell.text = {bytes, bytes == nullptr ? 0 : static_cast<std::size_t>(sqlite3_value_bytes(value))};
      }
    }
    return true;
  }

  [[nodiscard]] const std::vector<Cell>& cells() const { return cells_; }

 private:
  sqlite3* connection_;
  std::unique_ptr<sqlite3_stmt, Finalize> statement_;
  std::vector<Cell> cells_;
};

// Words of eight bytes, each mixed in by steps that are one to one (an odd factor, a shift of the upper half).
class Hash {
 public:
  void add(const Cell& cell) {
    add(static_cast<std::uint64_t>(cell.type));
    if (cell.type == SQLITE_INTEGER) return add(static_cast<std::uint64_t>(cell.number));
    for (std::size_t at = 0; at < cell.text.size(); at += sizeof(std::uint64_t)) {
      std::uint64_t word = 0;
      std::memcpy(&word, cell.text.data() + at, std::min(sizeof word, cell.text.size() - at));
      add(word);
    }
    add(cell.text.size());
  }

  [[nodiscard]] std::uint64_t value() const { return state_; }

 private:
  void add(std::uint64_t word) {
    state_ = (state_ ^ word) * 0x9e3779b97f4a7c15u;
    state_ ^= state_ >> 32u;
  }

  std::uint64_t state_ = 0;
};

// The row before, kept.
class Before {
 public:
  // Whether the first `compared` of these cells come after those of the row before; then takes all of them.
  bool ascends_to(const std::vector<Cell>& cells, std::size_t compared) {
    const bool ascends = cells_.empty() || std::lexicographical_compare(cells_.begin(), cells_.begin() + compared,
                                                                        cells.begin(), cells.begin() + compared);
    cells_ = cells;
    texts_.resize(cells.size());
    for (std::size_t i = 0; i < cells.size(); ++i) {
      texts_[i].assign(cells[i].text);
      cells_[i].text = texts_[i];
    }
    return ascends;
  }

 private:
  std::vector<Cell> cells_;
  std::vector<std::string> texts_;
};

struct Index {
  std::string name;
  bool is_unique = false;
  std::vector<std::string> columns;
};

std::vector<Index> indexes_of(SQLite::Database& database, const std::string& table) {
  std::vector<Index> all;
  Rows list(database, fmt::format("SELECT name, \"unique\" FROM pragma_index_list('{}')", table));
  while (list.next()) {
    Index& index = all.emplace_back();
    index.name = list.cells()[0].text;
    index.is_unique = list.cells()[1].number != 0;
    Rows columns(database, fmt::format("SELECT name FROM pragma_index_info('{}') ORDER BY seqno", index.name));
    while (columns.next()) index.columns.emplace_back(columns.cells()[0].text);
  }
  return all;
}

// One for each index, by a single pass over the table.
std::vector<std::uint64_t> sums_of_table(SQLite::Database& database, const std::string& table,
                                         const std::vector<Index>& indexes) {
  std::string query = "SELECT rowid";
  for (const Index& index : indexes) query += fmt::format(", {}", fmt::join(index.columns, ", "));
  Rows rows(database, query + " FROM " + table + " NOT INDEXED");
  std::vector<std::uint64_t> sums(indexes.size(), 0);
  while (rows.next()) {
    std::size_t column = 1;
    for (std::size_t k = 0; k < indexes.size(); ++k) {
      Hash hash;
      for (std::size_t i = 0; i < indexes[k].columns.size(); ++i) hash.add(rows.cells()[column++]);
      hash.add(rows.cells()[0]);
      sums[k] += hash.value();
    }
  }
  return sums;
}

// Nothing where the entries do not ascend.
std::optional<std::uint64_t> sum_of_index(SQLite::Database& database, const std::string& table, const Index& index) {
  const std::string columns = fmt::format("{}", fmt::join(index.columns, ", "));
  Rows rows(database,
            fmt::format("SELECT {0}, rowid FROM {1} INDEXED BY {2} ORDER BY {0}", columns, table, index.name));
  const std::size_t compared = index.columns.size() + (index.is_unique ? 0 : 1);
  Before before;
  std::uint64_t sum = 0;
  while (rows.next()) {
    if (!before.ascends_to(rows.cells(), compared)) return std::nullopt;
    Hash hash;
    for (const Cell& cell : rows.cells()) hash.add(cell);
    sum += hash.value();
  }
  return sum;
}

}  // namespace

bool indexes_agree(SQLite::Database& database) {
  std::vector<std::string> tables;
  {
    Rows list(database, "SELECT name FROM sqlite_schema WHERE type = 'table' ORDER BY name");
    while (list.next()) tables.emplace_back(list.cells()[0].text);
  }
  for (const std::string& table : tables) {
    const std::vector<Index> indexes = indexes_of(database, table);
    const std::vector<std::uint64_t> sums = sums_of_table(database, table, indexes);
    for (std::size_t k = 0; k < indexes.size(); ++k) {
      if (sum_of_index(database, table, indexes[k]) != sums[k]) return false;
    }
  }
  return true;
}

}  // namespace duskwire::store
