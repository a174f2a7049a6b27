// SPDX-License-Identifier: Apache-2.0
// A workspace of every earlier version of the tables opens with all that it held (tests/store/old/). Upgrading is one
// transaction: after a power cut anywhere in it the file is of the old version or of the new.
#include <gtest/gtest.h>

#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iterator>

#include "store/disk_vfs.hpp"
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
using testing::Session;
using testing::sized;

std::string old_file(int version) {
  const std::string path =
      std::string(DUSKWIRE_SOURCE_DIR) + "/tests/store/old/workspace-" + std::to_string(version) + ".duskwire";
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

// What the files were made with: see tests/store/old/README.md.
std::string fault_of(Workspace& workspace) {
  const auto wrong = workspace.verify();
  if (!wrong) return wrong.error().message;
  if (!wrong.value().empty()) return wrong.value().front();
  if (workspace.workspace_id() != "w-0123456789abcdef") return "another id";
  const auto jobs = workspace.jobs();
  if (!jobs || jobs.value().size() != 2) return "not two jobs";
  for (std::int64_t revision = 1; revision <= 4; ++revision) {
    const auto read = workspace.revision("garden", revision);
    if (!read || read.value().document != "{\"n\":" + std::to_string(revision - 1) + "}") return "a garden's revision";
  }
  const auto yard = workspace.job("yard");
  if (!yard || !yard.value().archived || yard.value().revision != 2) return "the yard";
  const auto picture = workspace.picture(sha256_hex("posted"));
  if (!picture || picture.value().bytes != std::string(5000, 'p')) return "the picture";
  const auto shop = workspace.shop_catalogue();
  if (!shop || shop.value().document != "{\"shop\":1}") return "the shop's catalogue";
  return "";
}

TEST(OldFiles, OpenWithAllThatTheyHeld) {
  const testing::Folder folder;
  const std::string bytes = old_file(1);
  ASSERT_GT(bytes.size(), 4096u);
  std::ofstream(folder.file("w"), std::ios::binary) << bytes;
  for (int round = 0; round < 2; ++round) {
    const auto workspace = testing::open_or_fail(folder.file("w"));
    EXPECT_EQ(fault_of(*workspace), "") << "opened " << round + 1 << " times";
  }
  const auto workspace = testing::open_or_fail(folder.file("w"));
  EXPECT_EQ(testing::saved_revision(workspace->save(testing::save_of("lane", 0, "{}"))), 1);
  EXPECT_TRUE(workspace->verify().value().empty());
}

TEST(OldFiles, APowerCutDuringTheUpgradeLosesNothing) {
  const testing::Folder folder;
  const std::string path = folder.file("w");
  const DiskImage before = {{path, old_file(1)}};
  std::vector<DiskStep> steps;
  {
    DiskVfs vfs{Disk(before)};
    Session session{path, nullptr};
    ASSERT_FALSE(testing::open_session(session).has_value());
    session.workspace.reset();
    steps = vfs.trace;
  }
  std::mt19937 dice(5);
  Disk disk(before);
  std::size_t cases = 0;
  const int survivals = sized(4, 50, 500);
  for (const DiskStep& step : steps) {
    disk.apply(step);
    for (int i = 0; i < survivals + 2; ++i) {
      const Cut how = i == 0 ? Cut::all_lost : i == 1 ? Cut::all_kept : Cut::some_sectors;
      DiskVfs vfs{Disk(disk.cut(how, dice))};
      Session session{path, nullptr};
      const auto error = testing::open_session(session);
      ASSERT_FALSE(error.has_value()) << error->message;
      ASSERT_EQ(fault_of(*session.workspace), "");
      ++cases;
    }
  }
  std::printf("%zu cuts in an upgrade of %zu steps\n", cases, steps.size());
  EXPECT_GT(cases, 50u);
}

// The n-th call of the disk fails during the upgrade: refused with a message, and sound at the next try.
TEST(OldFiles, AFaultDuringTheUpgradeLosesNothing) {
  const testing::Folder folder;
  const std::string path = folder.file("w");
  const DiskImage before = {{path, old_file(1)}};
  for (const testing::DiskCall call : {testing::DiskCall::write, testing::DiskCall::sync, testing::DiskCall::read}) {
    for (std::int64_t at = 0; at < 200; at += sized<std::int64_t>(3, 1, 1)) {
      DiskVfs vfs{Disk(before)};
      vfs.fault = {call, at, false, SQLITE_IOERR};
      Session session{path, nullptr};
      static_cast<void>(testing::open_session(session));
      if (vfs.faults_hit == 0) break;
      vfs.fault.at = -1;
      const auto error = testing::open_session(session);
      ASSERT_FALSE(error.has_value()) << error->message;
      ASSERT_EQ(fault_of(*session.workspace), "") << "call " << at;
    }
  }
}

}  // namespace
}  // namespace duskwire::store
