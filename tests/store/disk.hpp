// SPDX-License-Identifier: Apache-2.0
// A disk in memory that keeps apart what programs see and what a power cut would leave. A write is only in the cache
// until its file is synced; a cut keeps all, none, or any sectors of what was not synced, in any order. Used by the
// tests through DiskVfs; not safe for threads.
#pragma once

#include <cstdint>
#include <map>
#include <memory>
#include <random>
#include <string>
#include <vector>

namespace duskwire::store::testing {

// One operation, in the order in which the disk saw them: enough to build the disk's state at any moment again.
struct DiskStep {
  enum class Kind { create, write, truncate, sync, remove, mark };
  Kind kind = Kind::mark;
  std::string name;
  std::int64_t offset = 0;  // of a write; the new size of a truncation; the number of a mark
  std::string bytes;
};

// What is left after a cut: each file's bytes.
using DiskImage = std::map<std::string, std::string>;

enum class Cut { all_lost, all_kept, some_sectors };

class Disk {
 public:
  Disk() = default;
  // A disk as it is after a cut: everything on it is safe.
  explicit Disk(const DiskImage& image);

  void apply(const DiskStep& step);
  // A sync that failed: as on Linux the cache keeps the bytes and forgets that they were never written.
  void fail_sync(const std::string& name);

  [[nodiscard]] bool exists(const std::string& name) const { return seen_.count(name) != 0; }
  [[nodiscard]] const std::string& bytes(const std::string& name) const { return seen_.at(name)->cache; }
  [[nodiscard]] DiskImage cut(Cut how, std::mt19937& dice) const;

 private:
  struct Pending {
    bool truncation = false;
    std::int64_t offset = 0;
    std::string bytes;
  };
  struct File {
    std::string cache;
    std::string safe;
    std::vector<Pending> pending;
  };
  using Names = std::map<std::string, std::shared_ptr<File>>;

  static std::string survivors(const File& file, std::mt19937& dice);

  Names seen_;
  Names safe_;  // folder entries that survive
};

}  // namespace duskwire::store::testing
