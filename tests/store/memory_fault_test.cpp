// SPDX-License-Identifier: Apache-2.0
// Memory runs out: SQLite's allocator fails at its n-th call, once or from then on. The answer is an error, nothing is
// half stored, and with memory there again the same workspace goes on.
#include <gtest/gtest.h>
#include <sqlite3.h>

#include <cstdio>
#include <cstdlib>

#include "store/disk_vfs.hpp"
#include "store/script.hpp"
#include "store/sizes.hpp"
#include "store/temporary.hpp"

namespace duskwire::store {
namespace {

using testing::DiskVfs;
using testing::Session;
using testing::sized;

struct Allocator {
  sqlite3_mem_methods before = {};
  std::int64_t calls = 0;
  std::int64_t fail_at = -1;
  bool ever_after = false;
};
Allocator allocator;

bool fails_now() {
  const std::int64_t number = allocator.calls++;
  if (allocator.fail_at < 0) return false;
  return number == allocator.fail_at || (allocator.ever_after && number > allocator.fail_at);
}

void* allocate(int size) { return fails_now() ? nullptr : allocator.before.xMalloc(size); }
void* allocate_again(void* memory, int size) { return fails_now() ? nullptr : allocator.before.xRealloc(memory, size); }

// SQLite takes another allocator only while it is shut down.
class FailingAllocator {
 public:
  FailingAllocator() {
    sqlite3_shutdown();
    sqlite3_config(SQLITE_CONFIG_GETMALLOC, &allocator.before);
    sqlite3_mem_methods ours = allocator.before;
    ours.xMalloc = allocate;
    ours.xRealloc = allocate_again;
    sqlite3_config(SQLITE_CONFIG_MALLOC, &ours);
    sqlite3_initialize();
  }
  ~FailingAllocator() {
    allocator.fail_at = -1;
    sqlite3_shutdown();
    sqlite3_config(SQLITE_CONFIG_MALLOC, &allocator.before);
    sqlite3_initialize();
  }
  FailingAllocator(const FailingAllocator&) = delete;
  FailingAllocator& operator=(const FailingAllocator&) = delete;
};

// The script with memory failing at one allocation; what went wrong, or nothing.
std::string fault_in_run(const std::string& path, std::int64_t at, bool ever_after) {
  const std::vector<std::string>& contents = testing::contents_of_script();
  DiskVfs vfs;
  Session session{path, nullptr};
  allocator.calls = 0;
  allocator.fail_at = at;
  allocator.ever_after = ever_after;
  for (std::size_t i = 0; i < testing::script().size(); ++i) {
    const testing::Command& command = testing::script()[i];
    if (!command.run(session)) continue;
    allocator.fail_at = -1;
    if (const auto open = testing::open_session(session)) return "does not open again: " + open->message;
    const Result<std::string> content = testing::content_of(*session.workspace);
    if (!content) return command.name + " leaves it unreadable: " + content.error().message;
    if (content.value() != contents[i] && content.value() != contents[i + 1]) {
      return command.name + " left something half done";
    }
    if (const auto error = command.run(session)) return command.name + " fails again: " + error->message;
  }
  allocator.fail_at = -1;
  const Result<std::string> content = testing::content_of(*session.workspace);
  if (!content) return content.error().message;
  return content.value() == contents.back() ? "" : "the end is not what it should be";
}

TEST(MemoryFault, GivesAnErrorAndHalfStoresNothing) {
  const testing::Folder folder;
  const std::string path = folder.file("w");
  static_cast<void>(testing::contents_of_script());
  const FailingAllocator failing;
  ASSERT_EQ(fault_in_run(path, -1, false), "");
  const std::int64_t count = allocator.calls;
  const std::int64_t step = sized<std::int64_t>(count / 60 | 1, count / 3000 | 1, count / 30000 | 1);
  std::size_t runs = 0;
  int told = 0;
  for (std::int64_t at = 0; at < count; at += step) {
    for (const bool ever_after : {false, true}) {
      ++runs;
      const std::string fault = fault_in_run(path, at, ever_after);
      if (!fault.empty() && ++told <= 8) {
        ADD_FAILURE() << "allocation " << at << (ever_after ? " and after: " : ": ") << fault;
      }
    }
  }
  std::printf("%zu runs of the script, each with memory failing at one of %lld allocations\n", runs,
              static_cast<long long>(count));
}

}  // namespace
}  // namespace duskwire::store
