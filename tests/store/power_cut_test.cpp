// SPDX-License-Identifier: Apache-2.0
// The power goes after an operation of the disk, at any of them: what was not synced is lost, kept, or survives in
// part and out of order. After each the workspace opens, says of itself that it is sound, and holds what was answered,
// with at most the one command beyond it that was under way.
#include <gtest/gtest.h>

#include <cstdio>

#include "store/disk_vfs.hpp"
#include "store/log_check.hpp"
#include "store/script.hpp"
#include "store/sizes.hpp"
#include "store/temporary.hpp"

namespace duskwire::store {
namespace {

using testing::Cut;
using testing::Disk;
using testing::DiskImage;
using testing::DiskStep;
using testing::DiskVfs;
using testing::EarlyCheckpoints;
using testing::Session;
using testing::sized;

struct Recorded {
  std::vector<DiskStep> steps;
  std::string path;
};

// The script once through, with a mark after each answer.
Recorded record_script(const std::string& path) {
  DiskVfs vfs;
  Session session{path, nullptr};
  std::int64_t answered = 0;
  for (const testing::Command& command : testing::script()) {
    const auto error = command.run(session);
    EXPECT_FALSE(error.has_value()) << command.name << ": " << (error ? error->message : "");
    vfs.mark(++answered);
  }
  session.workspace.reset();
  return {vfs.trace, path};
}

// What is wrong with the workspace on this disk; empty: nothing. `recovery` gets what opening it did to the disk.
std::string fault_of(const DiskImage& image, const std::string& path, std::size_t answered,
                     std::vector<DiskStep>* recovery) {
  const auto log = image.find(path + "-wal");
  if (log != image.end() && is_log_damaged(log->second)) return "its log is taken for damaged";
  DiskVfs vfs{Disk(image)};
  Session session{path, nullptr};
  if (const auto error = testing::open_session(session)) return "does not open: " + error->message;
  if (recovery != nullptr) *recovery = vfs.trace;
  const Result<std::string> content = testing::content_of(*session.workspace);
  if (!content) return "cannot be read: " + content.error().message;
  const std::vector<std::string>& contents = testing::contents_of_script();
  if (content.value() == contents[answered]) return "";
  if (answered + 1 < contents.size() && content.value() == contents[answered + 1]) return "";
  for (std::size_t i = 0; i < contents.size(); ++i) {
    if (content.value() == contents[i]) return "holds the state after command " + std::to_string(i);
  }
  return "holds a state that never was: " + content.value().substr(0, 300);
}

// Cuts after each `every`-th step of `steps` on a disk that began as `start`, with so many random survivals each.
// `deeper` > 0 cuts the recovery of each `deeper`-th case as well.
struct Cutter {
  std::string path;
  std::size_t every = 1;
  int random_cuts = 8;
  std::size_t deeper = 0;
  std::mt19937 dice{20260301};
  std::size_t cases = 0;
  std::size_t compound = 0;
  int told = 0;

  void judge(const DiskImage& image, std::size_t answered, const std::string& where, bool below) {
    std::vector<DiskStep> recovery;
    ++cases;
    const bool go_deeper = !below && deeper != 0 && cases % deeper == 0;
    const std::string fault = fault_of(image, path, answered, go_deeper ? &recovery : nullptr);
    if (!fault.empty() && ++told <= 5) ADD_FAILURE() << where << ", " << answered << " answered: " << fault;
    if (!go_deeper) return;
    Disk disk(image);
    for (std::size_t i = 0; i < recovery.size(); ++i) {
      disk.apply(recovery[i]);
      ++compound;
      const Cut how = i % 3 == 0 ? Cut::all_lost : Cut::some_sectors;
      judge(disk.cut(how, dice), answered, where + ", then recovery step " + std::to_string(i), true);
    }
  }

  void run(const std::vector<DiskStep>& steps) {
    Disk disk;
    std::size_t answered = 0;
    for (std::size_t i = 0; i < steps.size(); ++i) {
      disk.apply(steps[i]);
      if (steps[i].kind == DiskStep::Kind::mark) answered = static_cast<std::size_t>(steps[i].offset);
      if (i % every != 0) continue;
      const std::string where = "step " + std::to_string(i) + " of " + std::to_string(steps.size());
      judge(disk.cut(Cut::all_lost, dice), answered, where + ", unsynced lost", false);
      judge(disk.cut(Cut::all_kept, dice), answered, where + ", unsynced kept", false);
      for (int k = 0; k < random_cuts; ++k) {
        judge(disk.cut(Cut::some_sectors, dice), answered, where + ", survival " + std::to_string(k), false);
      }
    }
  }
};

TEST(PowerCut, LeavesWhatWasAnsweredAtEveryStep) {
  const testing::Folder folder;
  const EarlyCheckpoints early;
  const Recorded recorded = record_script(folder.file("w"));
  Cutter cutter;
  cutter.path = recorded.path;
  cutter.every = sized<std::size_t>(5, 1, 1);
  cutter.random_cuts = sized(2, 8, 80);
  cutter.run(recorded.steps);
  std::printf("%zu steps of the disk, %zu cuts\n", recorded.steps.size(), cutter.cases);
  EXPECT_GT(cutter.cases, 400u);
}

TEST(PowerCut, DuringTheRecoveryFromACutLosesNothingEither) {
  const testing::Folder folder;
  const EarlyCheckpoints early;
  const Recorded recorded = record_script(folder.file("w"));
  Cutter cutter;
  cutter.path = recorded.path;
  cutter.every = sized<std::size_t>(61, 11, 2);
  cutter.random_cuts = 1;
  cutter.deeper = sized<std::size_t>(3, 3, 2);
  cutter.run(recorded.steps);
  std::printf("%zu cuts, of these %zu during recovery\n", cutter.cases, cutter.compound);
  EXPECT_GT(cutter.compound, 50u);
}

// The tests would see a store that answers too early: a disk that forgets one sync loses an answered command.
TEST(PowerCut, IsSeenWhereASyncIsLeftOut) {
  const testing::Folder folder;
  Recorded recorded = record_script(folder.file("w"));
  // The last sync before the third answer.
  std::size_t last = 0;
  for (std::size_t i = 0; i < recorded.steps.size(); ++i) {
    const DiskStep& step = recorded.steps[i];
    if (step.kind == DiskStep::Kind::sync) last = i;
    if (step.kind == DiskStep::Kind::mark && step.offset == 3) break;
  }
  Disk disk;
  std::mt19937 dice(1);
  for (std::size_t i = 0; i < recorded.steps.size(); ++i) {
    if (i == last) continue;
    disk.apply(recorded.steps[i]);
    if (recorded.steps[i].kind == DiskStep::Kind::mark && recorded.steps[i].offset == 3) break;
  }
  EXPECT_EQ(fault_of(disk.cut(Cut::all_lost, dice), recorded.path, 3, nullptr), "holds the state after command 2");
}

}  // namespace
}  // namespace duskwire::store
