// SPDX-License-Identifier: Apache-2.0
// Together with quick_check it must find whatever SQLite's own integrity_check finds: both judge the same damages.
#include "store/index_check.hpp"

#include <gtest/gtest.h>
#include <sqlite3.h>

#include <cstdio>
#include <fstream>
#include <iterator>
#include <random>

#include "store/sizes.hpp"
#include "store/temporary.hpp"

namespace duskwire::store {
namespace {

using testing::save_of;
using testing::sized;

constexpr std::size_t page = 4096;

// Enough that each of the three large indexes has pages below its first one.
std::string workspace_bytes() {
  const testing::Folder folder;
  {
    const auto workspace = testing::open_or_fail(folder.file("w"));
    for (int i = 0; i < 120; ++i) {
      const std::string job = "a-garden-with-a-long-name-" + std::to_string(i % 2);
      testing::saved_revision(workspace->save(save_of(job, i / 2, "{}")));
    }
    EXPECT_TRUE(workspace->add_picture({sha256_hex("p"), "image/png", 1, 1, "p"}, sha256_hex("posted")).ok());
    testing::saved_revision(workspace->save_shop_catalogue({0, "shop", "{}"}));
  }
  std::ifstream file(folder.file("w"), std::ios::binary);
  std::string bytes{std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
  bytes[18] = bytes[19] = 1;  // without a log, so that it can be opened in memory
  return bytes;
}

struct Verdict {
  bool by_both = false;  // quick_check and ours
  bool by_sqlite = false;
};

Verdict verdict_on(std::string bytes) {
  SQLite::Database database(":memory:", SQLite::OPEN_READWRITE);
  sqlite3_deserialize(database.getHandle(), "main", reinterpret_cast<unsigned char*>(bytes.data()),
                      static_cast<sqlite3_int64>(bytes.size()), static_cast<sqlite3_int64>(bytes.size()),
                      SQLITE_DESERIALIZE_READONLY);
  database.exec("PRAGMA cell_size_check = ON");
  Verdict verdict;
  try {
    verdict.by_sqlite = database.execAndGet("PRAGMA integrity_check(1)").getString() == "ok";
  } catch (const SQLite::Exception&) {
  }
  try {
    verdict.by_both = database.execAndGet("PRAGMA quick_check(1)").getString() == "ok" && indexes_agree(database);
  } catch (const SQLite::Exception&) {
  }
  return verdict;
}

TEST(IndexCheck, FindsWhateverTheFullCheckFinds) {
  const std::string good = workspace_bytes();
  ASSERT_TRUE(verdict_on(good).by_both);
  std::mt19937 dice(20260301);
  const int damages = sized(300, 60'000, 600'000);
  int found = 0;
  int by_ours_alone = 0;
  for (int i = 0; i < damages; ++i) {
    std::string bad = good;
    // Mostly behind the heads of pages: a cell's bytes are what the page itself does not tell from sound ones.
    const std::size_t at = page + dice() % (good.size() - page);
    bad[at] = static_cast<char>(bad[at] ^ 1 << dice() % 8);
    const Verdict verdict = verdict_on(bad);
    EXPECT_FALSE(verdict.by_both && !verdict.by_sqlite) << "bit of byte " << at;
    found += !verdict.by_sqlite;
    by_ours_alone += verdict.by_sqlite && !verdict.by_both;
  }
  std::printf("%d damages, %d found by both, %d by ours alone\n", damages, found, by_ours_alone);
  EXPECT_GT(found, damages / 20);
}

// Right entries in a wrong order are found by no search. A page's list of cells begins eight bytes behind its start
// (sqlite.org/fileformat2.html, "B-tree Pages").
TEST(IndexCheck, SeesEntriesThatChangedPlaces) {
  SQLite::Database database(":memory:", SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
  database.exec(
      "CREATE TABLE t (name TEXT); CREATE INDEX t_name ON t (name); INSERT INTO t VALUES (NULL), ('a'), ('b'), ('b')");
  sqlite3_int64 size = 0;
  unsigned char* copy = sqlite3_serialize(database.getHandle(), "main", &size, 0);
  std::string bytes(reinterpret_cast<char*>(copy), static_cast<std::size_t>(size));
  sqlite3_free(copy);
  EXPECT_TRUE(verdict_on(bytes).by_both);
  const auto list = static_cast<std::size_t>(
      database.execAndGet("SELECT (rootpage - 1) * 4096 + 8 FROM sqlite_schema WHERE name = 't_name'").getInt64());
  for (const std::size_t first : {list, list + 2, list + 4}) {
    std::string swapped = bytes;
    swapped.replace(first, 2, bytes, first + 2, 2);
    swapped.replace(first + 2, 2, bytes, first, 2);
    EXPECT_FALSE(verdict_on(swapped).by_both) << first - list;
  }
}

TEST(IndexCheck, SeesAKeyThatStandsTwiceWhereItMayStandOnce) {
  SQLite::Database database(":memory:", SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
  database.exec(
      "CREATE TABLE bare (x); CREATE TABLE t (name TEXT); CREATE INDEX t_name ON t (name); "
      "INSERT INTO t VALUES ('a'), ('b'), ('b')");
  EXPECT_TRUE(indexes_agree(database));
  database.exec(
      "PRAGMA writable_schema = ON; UPDATE sqlite_schema SET sql = 'CREATE UNIQUE INDEX t_name ON t (name)' WHERE name "
      "= "
      "'t_name'; PRAGMA writable_schema = RESET");
  EXPECT_FALSE(indexes_agree(database));
  EXPECT_NE(database.execAndGet("PRAGMA integrity_check(1)").getString(), "ok");
}

// Each index as it is where a change to its table did not reach it.
TEST(IndexCheck, SeesEachWayInWhichAnIndexCanBeStale) {
  struct Stale {
    const char* name;
    const char* change;
  };
  for (const Stale& each :
       {Stale{"nothing", "SELECT 1"}, Stale{"a row more in the table", "INSERT INTO t VALUES (9, 'x', 9)"},
        Stale{"a row less in the table", "DELETE FROM t WHERE id = 2"},
        Stale{"another text", "UPDATE t SET name = 'z' WHERE id = 2"},
        Stale{"another number", "UPDATE t SET number = 7 WHERE id = 2"},
        Stale{"bytes for a text", "UPDATE t SET name = CAST('b' AS BLOB) WHERE id = 2"},
        Stale{"a number for a text", "UPDATE t SET name = 7 WHERE id = 2"},
        Stale{"two rows' texts exchanged",
              "UPDATE t SET name = CASE id WHEN 2 THEN 'c' ELSE 'b' END WHERE id IN (2, 3)"},
        Stale{"another row's number", "UPDATE t SET id = 8 WHERE id = 2"},
        Stale{"an absent value", "UPDATE t SET name = NULL WHERE id = 2"}}) {
    SQLite::Database database(":memory:", SQLite::OPEN_READWRITE);
    database.exec(
        "CREATE TABLE t (id INTEGER PRIMARY KEY, name, number); CREATE INDEX t_name ON t (name, number);"
        "INSERT INTO t VALUES (1, 'a', 1), (2, 'b', 2), (3, 'c', 3), (4, 'c', 3)");
    EXPECT_TRUE(indexes_agree(database));
    database.exec("PRAGMA writable_schema = ON");
    const std::string root =
        database.execAndGet("SELECT rootpage FROM sqlite_schema WHERE name = 't_name'").getString();
    database.exec("DELETE FROM sqlite_schema WHERE name = 't_name'; PRAGMA writable_schema = RESET");
    database.exec(each.change);
    database.exec("PRAGMA writable_schema = ON");
    database.exec("INSERT INTO sqlite_schema VALUES ('index', 't_name', 't', " + root +
                  ", 'CREATE INDEX t_name ON t (name, number)')");
    database.exec("PRAGMA writable_schema = RESET");
    EXPECT_EQ(indexes_agree(database), std::string(each.name) == "nothing") << each.name;
    EXPECT_EQ(database.execAndGet("PRAGMA integrity_check(1)").getString() == "ok", std::string(each.name) == "nothing")
        << each.name;
  }
}

}  // namespace
}  // namespace duskwire::store
