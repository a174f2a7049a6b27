// SPDX-License-Identifier: Apache-2.0
// SQLite on a Disk: while a DiskVfs lives every database of the process is opened on its disk. It records each
// operation, counts those of a kind, and fails the n-th, once or for ever after. It has no shared memory: the store
// must do without (exclusive locking keeps the log's index in memory).
#pragma once

#include <sqlite3.h>

#include <cstdint>
#include <memory>
#include <random>
#include <string>
#include <vector>

#include "store/disk.hpp"

namespace duskwire::store::testing {

enum class DiskCall { open, read, write, truncate, sync, size, lock, remove, access };
inline constexpr int disk_call_kinds = 9;

struct DiskFault {
  DiskCall call = DiskCall::write;
  std::int64_t at = -1;  // counted from 0; below 0: never
  bool ever_after = false;
  int code = SQLITE_IOERR;
};

class DiskVfs {
 public:
  explicit DiskVfs(Disk disk = {});
  ~DiskVfs();
  DiskVfs(const DiskVfs&) = delete;
  DiskVfs& operator=(const DiskVfs&) = delete;

  Disk disk;
  std::vector<DiskStep> trace;
  std::int64_t calls[disk_call_kinds] = {};
  DiskFault fault;
  std::int64_t faults_hit = 0;

  // Writes a line into the trace: what came before it was answered.
  void mark(std::int64_t number) { trace.push_back({DiskStep::Kind::mark, {}, number, {}}); }

  // For the methods of SQLite's interface.
  int happens(DiskCall call);
  void perform(DiskStep step);
  std::mt19937 dice{7};

 private:
  std::unique_ptr<sqlite3_vfs> vfs_;
  sqlite3_vfs* before_ = nullptr;
};

}  // namespace duskwire::store::testing
