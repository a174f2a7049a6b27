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

// While it lives each new connection checkpoints after so few pages that a short script goes through many: the log
// wraps round, and pages move into the main file between commits.
class EarlyCheckpoints {
 public:
  EarlyCheckpoints() { sqlite3_auto_extension(reinterpret_cast<void (*)()>(&start)); }
  ~EarlyCheckpoints() { sqlite3_cancel_auto_extension(reinterpret_cast<void (*)()>(&start)); }
  EarlyCheckpoints(const EarlyCheckpoints&) = delete;
  EarlyCheckpoints& operator=(const EarlyCheckpoints&) = delete;

 private:
  static int start(sqlite3* connection, char**, const sqlite3_api_routines*) {
    return sqlite3_wal_autocheckpoint(connection, 12);
  }
};

}  // namespace duskwire::store::testing
