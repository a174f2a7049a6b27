// SPDX-License-Identifier: Apache-2.0
// A backup of a workspace that a server has open, asked for at its socket.
#include "server/backup_door.hpp"

#include <gtest/gtest.h>
#include <sys/socket.h>
#include <sys/stat.h>
#include <sys/un.h>
#include <unistd.h>

#include <atomic>
#include <filesystem>
#include <fstream>
#include <thread>

#include "store/rescue.hpp"
#include "store/temporary.hpp"

namespace duskwire::server {
namespace {

using store::testing::counting_environment;
using store::testing::Folder;
using store::testing::open_or_fail;
using store::testing::save_of;

TEST(BackupDoor, GivesAWholeCopyWhileSavesGoOn) {
  const Folder folder;
  const auto workspace = open_or_fail(folder.file("w"));
  const auto door = BackupDoor::open(*workspace, folder.file("w"));
  ASSERT_TRUE(door.ok()) << door.error().message;
  std::atomic<std::int64_t> answered{0};
  std::atomic<bool> enough{false};
  std::thread writer([&] {
    for (std::int64_t base = 0; !enough; ++base) {
      const auto outcome = workspace->save(save_of("garden", base, std::string(2000, 'x')));
      if (!std::holds_alternative<store::Saved>(outcome)) return;
      answered = base + 1;
    }
  });
  for (const char* name : {"first", "second", "third"}) {
    const std::int64_t before = answered;
    while (answered == before) std::this_thread::yield();
    const std::int64_t least = answered;
    const auto made = back_up_by_server(folder.file("w"), folder.file(name));
    const std::int64_t most = answered + 1;  // one may be stored and not answered yet
    ASSERT_TRUE(made.has_value()) << "nobody answered at the door";
    ASSERT_TRUE(made->ok()) << made->error().message;
    const auto contents = store::checked_copy(folder.file(name), counting_environment());
    ASSERT_TRUE(contents.ok()) << contents.error().message;
    EXPECT_GE(contents.value().revisions, least) << name;
    EXPECT_LE(contents.value().revisions, most) << name;
  }
  enough = true;
  writer.join();
}

TEST(BackupDoor, IsTheOwnersAloneAndGoesWithItsServer) {
  const Folder folder;
  const auto workspace = open_or_fail(folder.file("w"));
  EXPECT_FALSE(back_up_by_server(folder.file("w"), folder.file("b")).has_value());
  const std::string name = folder.file("w") + "-backup-door";
  {
    const auto door = BackupDoor::open(*workspace, folder.file("w"));
    struct stat facts {};
    ASSERT_EQ(::lstat(name.c_str(), &facts), 0);
    EXPECT_TRUE(S_ISSOCK(facts.st_mode));
    EXPECT_EQ(facts.st_mode & 0777u, 0600u);
  }
  EXPECT_FALSE(std::filesystem::exists(name));
}

TEST(BackupDoor, OneLeftByAKilledServerIsNoServerAndIsReplaced) {
  const Folder folder;
  const auto workspace = open_or_fail(folder.file("w"));
  const std::string name = folder.file("w") + "-backup-door";
  const int left = ::socket(AF_UNIX, SOCK_STREAM, 0);
  sockaddr_un address{};
  address.sun_family = AF_UNIX;
  ASSERT_LT(name.size(), sizeof address.sun_path);
  name.copy(address.sun_path, name.size());
  ASSERT_EQ(::bind(left, reinterpret_cast<const sockaddr*>(&address), sizeof address), 0);
  ::close(left);
  EXPECT_FALSE(back_up_by_server(folder.file("w"), folder.file("b")).has_value());
  const auto door = BackupDoor::open(*workspace, folder.file("w"));
  ASSERT_TRUE(door.ok());
  const auto made = back_up_by_server(folder.file("w"), folder.file("b"));
  ASSERT_TRUE(made.has_value());
  EXPECT_TRUE(made->ok());
}

TEST(BackupDoor, LeavesAFileThatHasItsNameAndSaysSo) {
  const Folder folder;
  const auto workspace = open_or_fail(folder.file("w"));
  std::ofstream(folder.file("w") + "-backup-door") << "mine";
  const auto door = BackupDoor::open(*workspace, folder.file("w"));
  ASSERT_FALSE(door.ok());
  EXPECT_NE(door.error().message.find("w-backup-door"), std::string::npos);
  EXPECT_EQ(door.error().message.find(folder.file("")), std::string::npos) << "no path of the disk";
  EXPECT_EQ(std::filesystem::file_size(folder.file("w") + "-backup-door"), 4u);
}

TEST(BackupDoor, AFolderOfAnyDepthHasOne) {
  const Folder folder;
  const std::string deep = folder.file(std::string(100, 'a') + "/" + std::string(100, 'b'));
  std::filesystem::create_directories(deep);
  const auto workspace = open_or_fail(deep + "/w");
  const auto door = BackupDoor::open(*workspace, deep + "/w");
  ASSERT_TRUE(door.ok()) << door.error().message;
  EXPECT_TRUE(back_up_by_server(deep + "/w", deep + "/b").value().ok());
}

TEST(BackupDoor, WhatTheStoreRefusesIsToldAsItIs) {
  const Folder folder;
  const auto workspace = open_or_fail(folder.file("w"));
  const auto door = BackupDoor::open(*workspace, folder.file("w"));
  { const auto other = open_or_fail(folder.file("taken")); }
  const auto taken = back_up_by_server(folder.file("w"), folder.file("taken"));
  ASSERT_TRUE(taken.has_value());
  EXPECT_EQ(taken->error().code, ErrorCode::conflict);
  EXPECT_NE(taken->error().message.find("not empty"), std::string::npos);
  EXPECT_EQ(back_up_by_server(folder.file("w"), folder.file("no/such/folder"))->error().code, ErrorCode::unavailable);
}

}  // namespace
}  // namespace duskwire::server
