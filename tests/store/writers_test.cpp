// SPDX-License-Identifier: Apache-2.0
// Many writers: threads of one program, and programs that want the same file. No update is lost, no number is missing,
// who has to wait is told so at once, and checkpoints and backups go on beside. The preset `threads` builds this file
// alone under the thread sanitizer.
#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include <atomic>
#include <chrono>
#include <cstdio>
#include <filesystem>
#include <thread>

#include "store/sizes.hpp"
#include "store/temporary.hpp"

namespace duskwire::store {
namespace {

using testing::EarlyCheckpoints;
using testing::Folder;
using testing::open_or_fail;
using testing::save_of;
using testing::sized;
using Clock = std::chrono::steady_clock;

constexpr int threads_each = 8;

// Saves on top of whatever is there until it gets through; false where the workspace fails.
bool save_on_top(Workspace& workspace, const std::string& id, const std::string& save_id) {
  for (;;) {
    const auto head = workspace.job(id);
    Save save = save_of(id, head.ok() ? head.value().revision : 0, "{\"by\":\"" + save_id + "\"}");
    save.save_id = save_id;
    const SaveOutcome outcome = workspace.save(save);
    if (std::holds_alternative<Saved>(outcome)) return true;
    if (std::holds_alternative<Error>(outcome)) return false;
  }
}

// `saves` by each of eight threads over three jobs; how many were answered.
int write_together(Workspace& workspace, const std::string& name, int saves) {
  std::atomic<int> answered = 0;
  std::vector<std::thread> threads;
  for (int t = 0; t < threads_each; ++t) {
    threads.emplace_back([&, t] {
      for (int i = 0; i < saves; ++i) {
        const std::string save_id = name + "-" + std::to_string(t) + "-" + std::to_string(i);
        if (save_on_top(workspace, "job-" + std::to_string((t + i) % 3), save_id)) ++answered;
      }
    });
  }
  for (std::thread& thread : threads) thread.join();
  return answered;
}

TEST(Writers, ThreadsLoseNoUpdateBesideReadersAndBackups) {
  const Folder folder;
  const EarlyCheckpoints early;
  const auto workspace = open_or_fail(folder.file("w"));
  const auto end = Clock::now() + std::chrono::seconds(sized(2, 300, 3600));
  std::atomic<bool> enough = false;
  std::thread reader([&] {
    while (!enough) {
      EXPECT_TRUE(workspace->jobs().ok());
      EXPECT_TRUE(workspace->shop_catalogue().ok());
      EXPECT_FALSE(workspace->workspace_id().empty());
    }
  });
  std::thread keeper([&] {
    for (int i = 0; !enough; ++i) {
      EXPECT_TRUE(workspace->back_up(folder.file("backup")).ok());
      std::filesystem::remove(folder.file("backup"));
      std::this_thread::sleep_for(std::chrono::milliseconds(20));
    }
  });
  std::int64_t answered = 0;
  for (int round = 0; Clock::now() < end; ++round) {
    answered += write_together(*workspace, "r" + std::to_string(round), 10);
  }
  enough = true;
  reader.join();
  keeper.join();
  EXPECT_EQ(workspace->contents().value().revisions, answered);
  const auto wrong = workspace->verify().value();
  EXPECT_TRUE(wrong.empty()) << wrong.front();
  std::printf("%lld saves by %d threads\n", static_cast<long long>(answered), threads_each);
}

// One program: opens when it may, writes with eight threads, closes. Ends with its answered saves in a pipe, or with
// the slowest refusal negated where one took too long.
void take_turns(const std::string& path, int number, Clock::time_point end, int pipe) {
  int answered = 0;
  for (int round = 0; Clock::now() < end; ++round) {
    const auto begin = Clock::now();
    {
      const auto opened = Workspace::open(path, testing::counting_environment());
      if (opened.ok()) {
        answered += write_together(*opened.value(), std::to_string(number) + "-" + std::to_string(round), 2);
      } else if (opened.error().code != ErrorCode::unavailable || Clock::now() - begin > std::chrono::seconds(5)) {
        answered = -1'000'000;
        break;
      }
    }
    std::this_thread::sleep_for(std::chrono::milliseconds(3 + 5 * number));
  }
  const auto written = ::write(pipe, &answered, sizeof answered);
  ::_exit(written == sizeof answered ? 0 : 1);
}

TEST(Writers, ProgramsTakeTurnsAndLoseNothing) {
  const Folder folder;
  const std::string path = folder.file("w");
  { const auto made = open_or_fail(path); }
  int ends[2];
  ASSERT_EQ(::pipe(ends), 0);
  const auto end = Clock::now() + std::chrono::seconds(sized(2, 300, 3600));
  constexpr int programs = 4;
  for (int i = 0; i < programs; ++i) {
    const pid_t child = ::fork();
    ASSERT_GE(child, 0);
    if (child == 0) take_turns(path, i, end, ends[1]);
  }
  std::int64_t answered = 0;
  for (int i = 0; i < programs; ++i) {
    int one = 0;
    ASSERT_EQ(::read(ends[0], &one, sizeof one), static_cast<ssize_t>(sizeof one));
    EXPECT_GE(one, 0) << "a program was not refused as it should be";
    answered += one;
  }
  for (int i = 0; i < programs; ++i) {
    int status = 0;
    ASSERT_GT(::wait(&status), 0);
    EXPECT_EQ(status, 0);
  }
  ::close(ends[0]);
  ::close(ends[1]);
  const auto workspace = open_or_fail(path);
  EXPECT_EQ(workspace->contents().value().revisions, answered);
  EXPECT_GT(answered, 0);
  const auto wrong = workspace->verify().value();
  EXPECT_TRUE(wrong.empty()) << wrong.front();
  std::printf("%lld saves by %d programs of %d threads\n", static_cast<long long>(answered), programs, threads_each);
}

}  // namespace
}  // namespace duskwire::store
