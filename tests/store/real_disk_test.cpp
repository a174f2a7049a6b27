// SPDX-License-Identifier: Apache-2.0
// Real file systems: one that is full to the last byte, a folder that cannot be written. Reading and backing up go on,
// and with room again the same workspace saves without a restart. Needs root for its small file system.
#include <gtest/gtest.h>
#include <sys/mount.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cstdio>
#include <filesystem>
#include <fstream>

#include "store/sizes.hpp"
#include "store/temporary.hpp"

namespace duskwire::store {
namespace {

using testing::Folder;
using testing::save_of;
using testing::saved_revision;
using testing::sized;

// Four MiB of their own; not there where this program may not mount.
class SmallDisk {
 public:
  explicit SmallDisk(const std::string& where) : where_(where) {
    std::filesystem::create_directory(where_);
    mounted_ = ::mount("tmpfs", where_.c_str(), "tmpfs", 0, "size=4m") == 0;
  }
  ~SmallDisk() {
    if (mounted_) ::umount2(where_.c_str(), MNT_DETACH);
  }
  SmallDisk(const SmallDisk&) = delete;
  SmallDisk& operator=(const SmallDisk&) = delete;

  [[nodiscard]] bool mounted() const { return mounted_; }
  [[nodiscard]] std::string file(const std::string& name) const { return where_ + "/" + name; }
  [[nodiscard]] bool make_read_only() const {
    return ::mount(nullptr, where_.c_str(), nullptr, MS_REMOUNT | MS_RDONLY, nullptr) == 0;
  }
  // All room but so many bytes.
  void fill(std::uintmax_t but_bytes) const {
    const std::uintmax_t room = std::filesystem::space(where_).available;
    if (room <= but_bytes) return;
    std::ofstream ballast(file("ballast"), std::ios::binary);
    const std::string block(room - but_bytes, 'x');
    ballast.write(block.data(), static_cast<std::streamsize>(block.size()));
  }

 private:
  std::string where_;
  bool mounted_ = false;
};

TEST(RealDisk, FullToTheLastByteItReadsAndGoesOnWhenFreed) {
  const Folder folder;
  const SmallDisk disk(folder.file("disk"));
  if (!disk.mounted()) GTEST_SKIP() << "mounting a small file system needs root";
  const int levels = sized(5, 40, 40);
  for (int level = 0; level < levels; ++level) {
    const std::string path = disk.file("w");
    {
      const auto workspace = testing::open_or_fail(path);
      saved_revision(workspace->save(save_of("garden", 0, "{\"n\":1}")));
      disk.fill(static_cast<std::uintmax_t>(level) * 4096 * static_cast<std::uintmax_t>(levels == 5 ? 8 : 1));
      std::int64_t revision = 1;
      bool full = false;
      for (int i = 0; i < 200 && !full; ++i) {
        const SaveOutcome outcome = workspace->save(save_of("garden", revision, std::string(9000, 'x')));
        if (const auto* error = std::get_if<Error>(&outcome)) {
          EXPECT_EQ(error->code, ErrorCode::no_room) << error->message;
          full = true;
        } else {
          revision = saved_revision(outcome);
        }
      }
      EXPECT_TRUE(full) << "level " << level;
      EXPECT_EQ(workspace->job("garden").value().revision, revision);
      EXPECT_TRUE(workspace->verify().value().empty());
      EXPECT_TRUE(workspace->back_up(folder.file("elsewhere")).ok());
      EXPECT_FALSE(workspace->back_up(disk.file("here")).ok());
      std::filesystem::remove(disk.file("ballast"));
      std::filesystem::remove(disk.file("here"));
      EXPECT_EQ(saved_revision(workspace->save(save_of("garden", revision, "{}"))), revision + 1);
    }
    for (const std::string& gone : {path, folder.file("elsewhere")}) std::filesystem::remove(gone);
  }
}

TEST(RealDisk, AFolderThatCannotBeWrittenIsToldAndNothingChanges) {
  const Folder folder;
  const SmallDisk disk(folder.file("disk"));
  if (!disk.mounted()) GTEST_SKIP() << "mounting a small file system needs root";
  {
    const auto workspace = testing::open_or_fail(disk.file("w"));
    saved_revision(workspace->save(save_of("garden", 0, "{}")));
  }
  ASSERT_TRUE(disk.make_read_only());
  const auto refused = Workspace::open(disk.file("w"), testing::counting_environment());
  ASSERT_FALSE(refused.ok());
  EXPECT_EQ(refused.error().code, ErrorCode::unavailable);
  EXPECT_EQ(Workspace::open(disk.file("new"), testing::counting_environment()).error().code, ErrorCode::unavailable);
}

}  // namespace
}  // namespace duskwire::store
