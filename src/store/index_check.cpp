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
#include <new>
#include <string>
#include <string_view>
#include <vector>

namespace duskwire::store {
namespace {

// One value of a row, as long as the row is the present one.
struct Cell {
  explicit Cell(sqlite3_value* value) : type(sqlite3_value_type(value)) {
    if (type == SQLITE_INTEGER) {
      number = sqlite3_value_int64(value);
    } else if (const void* bytes = sqlite3_value_blob(value); bytes != nullptr) {
      text = {static_cast<const char*>(bytes), static_cast<std::size_t>(sqlite3_value_bytes(value))};
    }
  }

  int type;
  std::int64_t number = 0;
  std::string_view text;
};

// The same of the row before, kept.
struct KeptCell {
  int type = SQLITE_NULL;
  std::int64_t number = 0;
  std::string text;

  // -1, 0 or 1 as SQLite orders values. Its numbers of types are the other way round for none alone.
  [[nodiscard]] int compared_with(const Cell& next) const {
    if (type != next.type) {
      return type == SQLITE_NULL || (next.type != SQLITE_NULL && type < next.type) ? -1 : 1;
    }
    if (type != SQLITE_INTEGER) return text.compare(next.text);
    return number < next.number ? -1 : number > next.number ? 1 : 0;
  }

  void take(const Cell& cell) {
    type = cell.type;
    number = cell.number;
    text = cell.text;
  }
};

// Words of eight bytes, each mixed in by steps that are one to one (an odd factor, a shift of the upper half).
class EntryHash {
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

  [[nodiscard]] std::uint64_t value() const { return value_; }

 private:
  void add(std::uint64_t word) {
    value_ = (value_ ^ word) * 0x9e3779b97f4a7c15u;
    value_ ^= value_ >> 32u;
  }

  std::uint64_t value_ = 0;
};

// What is read in one pass, given by SQLite to an aggregate function: of a million saves some twenty million values,
// which take half the time of asking for them one by one.
class Pass {
 public:
  explicit Pass(SQLite::Database& database) : database_(database) {
    check(sqlite3_create_function_v2(database_.getHandle(), "entry", -1, SQLITE_UTF8 | SQLITE_DIRECTONLY, this, nullptr,
                                     &Pass::step, &Pass::end, nullptr));
  }
  ~Pass() {
    sqlite3_create_function_v2(database_.getHandle(), "entry", -1, SQLITE_UTF8, nullptr, nullptr, nullptr, nullptr,
                               nullptr);
  }
  Pass(const Pass&) = delete;
  Pass& operator=(const Pass&) = delete;

  // `query` calls entry(K, VALUE...) for each entry of the K-th of `count` sums. Where `compared` is not 0, so many
  // values must come after those of the entry before.
  void run(const std::string& query, std::size_t count, std::size_t compared) {
    sums_.assign(count, 0);
    before_.clear();
    compared_ = compared;
    ascends_ = true;
    database_.execAndGet(query);
  }

  [[nodiscard]] const std::vector<std::uint64_t>& sums() const { return sums_; }
  [[nodiscard]] bool ascends() const { return ascends_; }

 private:
  void check(int status) const {
    if (status != SQLITE_OK) throw SQLite::Exception(database_.getHandle(), status);
  }

  static void step(sqlite3_context* context, int count, sqlite3_value** values) {
    try {
      static_cast<Pass*>(sqlite3_user_data(context))->take(count, values);
    } catch (const std::bad_alloc&) {
      sqlite3_result_error_nomem(context);
    }
  }
  static void end(sqlite3_context*) {}

  void take(int count, sqlite3_value** values) {
    EntryHash hash;
    const auto cells = static_cast<std::size_t>(count - 1);
    const bool has_before = !before_.empty();
    if (compared_ > 0) before_.resize(cells);
    int order = has_before ? 0 : -1;
    for (std::size_t i = 0; i < cells; ++i) {
      const Cell cell(values[i + 1]);
      hash.add(cell);
      if (compared_ == 0) continue;
      if (order == 0 && i < compared_) order = before_[i].compared_with(cell);
      before_[i].take(cell);
    }
    ascends_ = ascends_ && (compared_ == 0 || order < 0);
    sums_[static_cast<std::size_t>(sqlite3_value_int(values[0]))] += hash.value();
  }

  SQLite::Database& database_;
  std::vector<std::uint64_t> sums_;
  std::vector<KeptCell> before_;
  std::size_t compared_ = 0;
  bool ascends_ = true;
};

struct Index {
  std::string name;
  bool is_unique = false;
  std::vector<std::string> columns;
};

std::vector<Index> indexes_of(SQLite::Database& database, const std::string& table) {
  std::vector<Index> all;
  SQLite::Statement list(database, fmt::format("SELECT name, \"unique\" FROM pragma_index_list('{}')", table));
  while (list.executeStep()) {
    Index& index = all.emplace_back();
    index.name = list.getColumn(0).getString();
    index.is_unique = list.getColumn(1).getInt() != 0;
    SQLite::Statement columns(database,
                              fmt::format("SELECT name FROM pragma_index_info('{}') ORDER BY seqno", index.name));
    while (columns.executeStep()) index.columns.push_back(columns.getColumn(0).getString());
  }
  return all;
}

std::string entry_of(const Index& index, std::size_t number) {
  return fmt::format("entry({}, {}, rowid)", number, fmt::join(index.columns, ", "));
}

bool indexes_of_table_agree(SQLite::Database& database, Pass& pass, const std::string& table) {
  const std::vector<Index> indexes = indexes_of(database, table);
  if (indexes.empty()) return true;
  std::string entries;
  for (std::size_t k = 0; k < indexes.size(); ++k) entries += (k == 0 ? "" : ", ") + entry_of(indexes[k], k);
  pass.run(fmt::format("SELECT {} FROM {} NOT INDEXED", entries, table), indexes.size(), 0);
  const std::vector<std::uint64_t> expected = pass.sums();
  for (std::size_t k = 0; k < indexes.size(); ++k) {
    // An index holds all that is asked for, so that nothing else is read, and from its beginning to its end.
    const std::size_t compared = indexes[k].columns.size() + (indexes[k].is_unique ? 0 : 1);
    pass.run(fmt::format("SELECT {} FROM {} INDEXED BY {}", entry_of(indexes[k], 0), table, indexes[k].name), 1,
             compared);
    if (!pass.ascends()) return false;
    if (pass.sums()[0] != expected[k]) return false;
  }
  return true;
}

}  // namespace

bool indexes_agree(SQLite::Database& database) {
  Pass pass(database);
  SQLite::Statement tables(database, "SELECT name FROM sqlite_schema WHERE type = 'table' ORDER BY name");
  while (tables.executeStep()) {
    if (!indexes_of_table_agree(database, pass, tables.getColumn(0).getString())) return false;
  }
  return true;
}

}  // namespace duskwire::store
