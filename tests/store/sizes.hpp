// SPDX-License-Identifier: Apache-2.0
// How much of a long test is run: DUSKWIRE_STORE_SIZE is quick (as in ./test, the default), nightly or release
// (tools/nightly sets it).
#pragma once

#include <sqlite3.h>

#include <cstdlib>
#include <string>

namespace duskwire::store::testing {

template <class T>
[[nodiscard]] T sized(T quick, T nightly, T release) {
  const char* size = std::getenv("DUSKWIRE_STORE_SIZE");
  const std::string name = size == nullptr ? "quick" : size;
  return name == "release" ? release : name == "nightly" ? nightly : quick;
}

// While it lives, what `Start` does to a new connection is done to each.
template <int (*Start)(sqlite3*, char**, const sqlite3_api_routines*)>
class EachConnection {
 public:
  EachConnection() { sqlite3_auto_extension(reinterpret_cast<void (*)()>(Start)); }
  ~EachConnection() { sqlite3_cancel_auto_extension(reinterpret_cast<void (*)()>(Start)); }
  EachConnection(const EachConnection&) = delete;
  EachConnection& operator=(const EachConnection&) = delete;
};

inline int checkpoint_early(sqlite3* connection, char**, const sqlite3_api_routines*) {
  return sqlite3_wal_autocheckpoint(connection, 12);
}
inline int keep_few_pages(sqlite3* connection, char**, const sqlite3_api_routines*) {
  // Setting it reads the tables: alone, as the store does, or it would need room for shared memory.
  sqlite3_exec(connection, "PRAGMA locking_mode = EXCLUSIVE; PRAGMA cache_size = 4", nullptr, nullptr, nullptr);
  return SQLITE_OK;
}

// Checkpoints after so few pages that a short script goes through many: the log wraps round, and pages move into the
// main file between commits.
using EarlyCheckpoints = EachConnection<checkpoint_early>;
// What is written goes to the disk before its commit, as that of a large workspace does.
using SmallCache = EachConnection<keep_few_pages>;

}  // namespace duskwire::store::testing
