// SPDX-License-Identifier: Apache-2.0
// kill -9 just before each system call that changes a file, while a backup is made, restored or salvaged, and while a
// workspace is made: what was there stays as it was, and no half of the new is ever taken for the whole.
#include <gtest/gtest.h>
#include <sys/ptrace.h>
#include <sys/syscall.h>
#include <sys/user.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <functional>
#include <iterator>
#include <vector>

#include "store/rescue.hpp"
#include "store/sizes.hpp"
#include "store/temporary.hpp"

namespace duskwire::store {
namespace {

using testing::Folder;
using testing::open_or_fail;
using testing::save_of;
using testing::saved_revision;
using testing::sized;

bool changes_a_file(const __ptrace_syscall_info& call) {
  constexpr std::uint64_t may_make = 0100;  // O_CREAT
  switch (call.entry.nr) {
    case SYS_openat:
      return (call.entry.args[2] & may_make) != 0;
    case SYS_write:
    case SYS_pwrite64:
    case SYS_ftruncate:
    case SYS_fsync:
    case SYS_fdatasync:
    case SYS_copy_file_range:
    case SYS_sendfile:
    case SYS_unlinkat:
    case SYS_renameat:
    case SYS_renameat2:
#ifdef SYS_unlink
    case SYS_open:
    case SYS_unlink:
    case SYS_rename:
#endif
      return true;
    default:
      return false;
  }
}

// Runs `work` in a process of its own and kills that before its n-th change of a file. Whether it was killed.
bool killed_before(int change, const std::function<void()>& work, std::vector<std::uint64_t>* calls = nullptr) {
  const pid_t child = ::fork();
  if (child == 0) {
    ::ptrace(PTRACE_TRACEME, 0, nullptr, nullptr);
    ::raise(SIGSTOP);
    work();
    ::_exit(0);
  }
  int status = 0;
  ::waitpid(child, &status, 0);
  ::ptrace(PTRACE_SETOPTIONS, child, nullptr, PTRACE_O_TRACESYSGOOD | PTRACE_O_EXITKILL);
  int changes = 0;
  for (;;) {
    ::ptrace(PTRACE_SYSCALL, child, nullptr, nullptr);
    ::waitpid(child, &status, 0);
    if (WIFEXITED(status) || WIFSIGNALED(status)) return false;
    __ptrace_syscall_info call = {};
    ::ptrace(PTRACE_GET_SYSCALL_INFO, child, sizeof call, &call);
    if (call.op != PTRACE_SYSCALL_INFO_ENTRY || !changes_a_file(call)) continue;
    if (calls != nullptr) calls->push_back(call.entry.nr);
    if (changes++ != change) continue;
    ::kill(child, SIGKILL);
    ::waitpid(child, &status, 0);
    return true;
  }
}

// The changes that `work` makes to files, in their order, by the number of the call.
std::vector<std::uint64_t> changes_of(const std::function<void()>& work) {
  std::vector<std::uint64_t> calls;
  killed_before(-1, work, &calls);
  return calls;
}

std::string bytes_of(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

// The fingerprint of a workspace that opens and is sound to the last bit; what is wrong with it otherwise.
std::string fingerprint_of(const std::string& path) {
  const auto opened = Workspace::open(path, testing::counting_environment());
  if (!opened) return opened.error().message;
  const auto wrong = opened.value()->verify();
  if (!wrong) return wrong.error().message;
  return wrong.value().empty() ? opened.value()->contents().value().fingerprint : wrong.value().front();
}

class KillPoints : public ::testing::Test {
 protected:
  void SetUp() override {
    const auto workspace = open_or_fail(file("w"));
    for (int i = 0; i < 6; ++i) saved_revision(workspace->save(save_of("garden", i, std::string(9000, 'x'))));
    ASSERT_TRUE(workspace->add_picture({sha256_hex("p"), "image/png", 1, 1, "p"}, "posted").ok());
    fingerprint_ = workspace->contents().value().fingerprint;
    ASSERT_TRUE(workspace->back_up(file("backup")).ok());
  }

  [[nodiscard]] std::string file(const std::string& name) const { return folder_.file(name); }

  // `judge` after a kill before each change that `work` makes; at the quick size before each `quick_step`th one.
  void at_each_change(int quick_step, const std::function<void()>& work, const std::function<void(int)>& judge) const {
    const int step = sized(quick_step, 1, 1);
    int kills = 0;
    for (int change = 0;; change += step) {
      const bool killed = killed_before(change, work);
      if (killed) {
        ++kills;
        judge(change);
      }
      if (!killed || HasFailure()) break;
    }
    std::printf("%d kills\n", kills);
    EXPECT_GT(kills, 3);
  }

  Folder folder_;
  std::string fingerprint_;
};

TEST_F(KillPoints, OfABackupLeaveTheWorkspaceAndNoHalf) {
  const auto work = [&] {
    const auto workspace = Workspace::open(file("w"), testing::counting_environment());
    static_cast<void>(workspace.value()->back_up(file("new")));
  };
  at_each_change(4, work, [&](int change) {
    EXPECT_EQ(fingerprint_of(file("w")), fingerprint_) << "before change " << change;
    const auto restored = restore(file("new"), file("again"), testing::counting_environment());
    if (restored) {
      EXPECT_EQ(restored.value().fingerprint, fingerprint_) << "before change " << change;
    } else {
      EXPECT_GT(restored.error().message.size(), 40u);
      EXPECT_FALSE(std::filesystem::exists(file("again")));
    }
    for (const char* name : {"new", "new-journal", "again"}) std::filesystem::remove(file(name));
  });
}

TEST_F(KillPoints, OfARestoreLeaveTheBackupAndAllOrNothing) {
  const std::string before = bytes_of(file("backup"));
  const auto work = [&] { static_cast<void>(restore(file("backup"), file("new"), testing::counting_environment())); };
  at_each_change(2, work, [&](int change) {
    EXPECT_EQ(bytes_of(file("backup")), before) << "before change " << change;
    if (!std::filesystem::exists(file("new"))) {
      // What was left does not stand in the way of the next one.
      const auto again = restore(file("backup"), file("new"), testing::counting_environment());
      ASSERT_TRUE(again.ok()) << "before change " << change << ": " << again.error().message;
    }
    EXPECT_EQ(fingerprint_of(file("new")), fingerprint_) << "before change " << change;
    std::filesystem::remove(file("new"));
  });
}

TEST_F(KillPoints, OfASalvageLeaveTheDamagedFileAndAllOrNothing) {
  {
    std::fstream damaged(file("w"), std::ios::binary | std::ios::in | std::ios::out);
    damaged.seekp(3);
    damaged.put('\0');
  }
  const std::string before = bytes_of(file("w"));
  const auto work = [&] { static_cast<void>(salvage(file("w"), file("new"), testing::counting_environment())); };
  at_each_change(16, work, [&](int change) {
    EXPECT_EQ(bytes_of(file("w")), before) << "before change " << change;
    if (!std::filesystem::exists(file("new"))) {
      const auto again = salvage(file("w"), file("new"), testing::counting_environment());
      ASSERT_TRUE(again.ok()) << "before change " << change << ": " << again.error().message;
      EXPECT_EQ(again.value().revisions, 6);
    }
    EXPECT_EQ(open_or_fail(file("new"))->revisions("garden", std::nullopt, 9).value().size(), 6u);
    std::filesystem::remove(file("new"));
  });
}

TEST_F(KillPoints, OfTheFirstOpeningLeaveAFileThatOpens) {
  const auto work = [&] { static_cast<void>(Workspace::open(file("new"), testing::counting_environment())); };
  at_each_change(6, work, [&](int change) {
    const auto workspace = Workspace::open(file("new"), testing::counting_environment());
    ASSERT_TRUE(workspace.ok()) << "before change " << change << ": " << workspace.error().message;
    EXPECT_EQ(saved_revision(workspace.value()->save(save_of("garden", 0, "{}"))), 1);
    for (const char* name : {"new", "new-wal", "new-journal"}) std::filesystem::remove(file(name));
  });
}

// A kill loses nothing that was written; the power going does.
TEST_F(KillPoints, ARestoredFileIsSyncedBeforeItGetsItsNameAndItsNameAfterwards) {
  const auto calls =
      changes_of([&] { static_cast<void>(restore(file("backup"), file("new"), testing::counting_environment())); });
  const auto is_sync = [](std::uint64_t call) { return call == SYS_fsync; };
  const auto is_copy = [](std::uint64_t call) { return call == SYS_copy_file_range || call == SYS_sendfile; };
  const auto is_name = [](std::uint64_t call) { return call == SYS_rename || call == SYS_renameat2; };
  const auto copied = std::find_if(calls.begin(), calls.end(), is_copy);
  const auto named = std::find_if(calls.begin(), calls.end(), is_name);
  ASSERT_TRUE(copied != calls.end() && named != calls.end());
  EXPECT_TRUE(is_sync(*std::find_if_not(copied, named, is_copy))) << "the file";
  EXPECT_NE(std::find_if(named, calls.end(), is_sync), calls.end()) << "its name";
}

TEST_F(KillPoints, ANewFilesEntryIsSyncedBeforeAnythingIsWritten) {
  const auto calls =
      changes_of([&] { static_cast<void>(Workspace::open(file("new"), testing::counting_environment())); });
  const auto written =
      std::find_if(calls.begin(), calls.end(), [](std::uint64_t call) { return call == SYS_pwrite64; });
  ASSERT_NE(written, calls.end());
  EXPECT_NE(std::find(calls.begin(), written, std::uint64_t{SYS_fsync}), written);
}

}  // namespace
}  // namespace duskwire::store
