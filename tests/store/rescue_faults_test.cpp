// SPDX-License-Identifier: Apache-2.0
// Backup, restore and salvage where the disk is full at any level, where the folder is not there, and of files that
// hold nothing: one clear message, nothing left behind, and never a rescue that passes over what it had no room for.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/mount.h>

#include <filesystem>
#include <fstream>

#include "store/rescue.hpp"
#include "store/sizes.hpp"
#include "store/temporary.hpp"

namespace duskwire::store {
namespace {

using testing::Folder;
using ::testing::HasSubstr;
using testing::open_or_fail;
using testing::save_of;
using testing::saved_revision;
using testing::sized;

constexpr int revisions = 8;

void make_workspace(const std::string& path) {
  const auto workspace = open_or_fail(path);
  for (int i = 0; i < revisions; ++i) {
    saved_revision(workspace->save(save_of("garden", i, std::string(60'000, static_cast<char>('a' + i)))));
  }
}

std::size_t files_in(const std::string& folder) {
  return static_cast<std::size_t>(std::distance(std::filesystem::directory_iterator(folder), {}));
}

// A file system of so many KiB; not there where this program may not mount.
class SmallDisk {
 public:
  SmallDisk(const std::string& where, int kib) : where_(where) {
    std::filesystem::create_directory(where_);
    const std::string options = "size=" + std::to_string(kib) + "k";
    mounted_ = ::mount("tmpfs", where_.c_str(), "tmpfs", 0, options.c_str()) == 0;
  }
  ~SmallDisk() {
    if (mounted_) ::umount2(where_.c_str(), MNT_DETACH);
    std::filesystem::remove(where_);
  }
  SmallDisk(const SmallDisk&) = delete;
  SmallDisk& operator=(const SmallDisk&) = delete;

  [[nodiscard]] bool mounted() const { return mounted_; }
  [[nodiscard]] const std::string& folder() const { return where_; }

 private:
  std::string where_;
  bool mounted_ = false;
};

// Runs `rescue(output)` with ever more room until there is enough, which `is_whole(result)` judges.
template <class Rescue, class IsWhole>
void with_ever_more_room(const Folder& folder, Rescue&& rescue, IsWhole&& is_whole) {
  const int step_kib = sized(116, 12, 4);
  int refusals = 0;
  for (int kib = 4;; kib += step_kib) {
    const SmallDisk disk(folder.file("disk"), kib);
    if (!disk.mounted()) GTEST_SKIP() << "mounting a small file system needs root";
    const auto result = rescue(disk.folder() + "/new");
    if (result.ok()) {
      EXPECT_TRUE(is_whole(result.value())) << kib << " KiB";
      EXPECT_EQ(files_in(disk.folder()), 1u) << kib << " KiB";
      break;
    }
    ++refusals;
    const std::string& message = result.error().message;
    const bool is_clear = message.find(" room") != std::string::npos || message.find("is full") != std::string::npos;
    EXPECT_TRUE(is_clear) << kib << " KiB: " << message;
    EXPECT_EQ(files_in(disk.folder()), 0u) << kib << " KiB: " << result.error().message;
    ASSERT_LT(kib, 8000) << result.error().message;
  }
  EXPECT_GT(refusals, 2);
}

TEST(RescueFaults, RestoreToAFullDiskIsToldAndLeavesNothing) {
  const Folder folder;
  make_workspace(folder.file("w"));
  with_ever_more_room(
      folder,
      [&](const std::string& output) { return restore(folder.file("w"), output, testing::counting_environment()); },
      [](const Contents& contents) { return contents.revisions == revisions; });
}

// The new file's disk was full: salvage took that for rows of the damaged file that cannot be read.
TEST(RescueFaults, SalvageToAFullDiskIsToldAndLosesNothing) {
  const testing::SmallCache no_room_in_memory;
  const Folder folder;
  make_workspace(folder.file("w"));
  // Open, so that the last save is in the log alone.
  const auto workspace = open_or_fail(folder.file("w"));
  saved_revision(workspace->save(save_of("garden", revisions, std::string(60'000, 'z'))));
  with_ever_more_room(
      folder,
      [&](const std::string& output) { return salvage(folder.file("w"), output, testing::counting_environment()); },
      [](const Salvaged& salvaged) { return salvaged.revisions == revisions + 1 && salvaged.lost.empty(); });
}

// A broken first page needs a new workspace beside it, for which there is no room either.
TEST(RescueFaults, SalvageOfABrokenFirstPageToAFullDiskToo) {
  const Folder folder;
  make_workspace(folder.file("w"));
  {
    std::fstream damaged(folder.file("w"), std::ios::binary | std::ios::in | std::ios::out);
    damaged << std::string(16, 'x');
  }
  const int step_kib = sized(200, 12, 4);
  for (int kib = 4; kib < 3000; kib += step_kib) {
    const SmallDisk disk(folder.file("disk"), kib);
    if (!disk.mounted()) GTEST_SKIP() << "mounting a small file system needs root";
    const auto salvaged = salvage(folder.file("w"), disk.folder() + "/new", testing::counting_environment());
    if (salvaged) {
      EXPECT_EQ(salvaged.value().revisions, revisions) << kib << " KiB";
    } else {
      EXPECT_EQ(files_in(disk.folder()), 0u) << kib << " KiB: " << salvaged.error().message;
    }
  }
}

TEST(RescueFaults, AFolderThatIsNotThereIsTold) {
  const Folder folder;
  make_workspace(folder.file("w"));
  const std::string nowhere = folder.file("none/new");
  const auto environment = testing::counting_environment();
  EXPECT_EQ(restore(folder.file("w"), nowhere, environment).error().code, ErrorCode::unavailable);
  EXPECT_EQ(salvage(folder.file("w"), nowhere, environment).error().code, ErrorCode::no_room);
  const auto backup = open_or_fail(folder.file("w"))->back_up(nowhere);
  EXPECT_EQ(backup.error().code, ErrorCode::unavailable);
  EXPECT_THAT(backup.error().message, HasSubstr("The backup's file cannot be written"));
}

TEST(RescueFaults, SalvageOfWhatHoldsNothingIsRefused) {
  const Folder folder;
  const auto environment = testing::counting_environment();
  std::ofstream(folder.file("short")) << std::string(3000, 'x');
  EXPECT_EQ(salvage(folder.file("short"), folder.file("new"), environment).error().code, ErrorCode::invalid);
  { const auto empty = open_or_fail(folder.file("empty")); }
  const auto nothing = salvage(folder.file("empty"), folder.file("new"), environment);
  ASSERT_FALSE(nothing.ok());
  EXPECT_THAT(nothing.error().message, HasSubstr("nothing of what it held can be read"));
  EXPECT_EQ(files_in(std::filesystem::path(folder.file("new")).parent_path()), 2u);
}

}  // namespace
}  // namespace duskwire::store
