// SPDX-License-Identifier: Apache-2.0
// Backup while work goes on, restore elsewhere, equal fingerprint; what restore and salvage refuse.
#include "store/rescue.hpp"

#include <gtest/gtest.h>

#include <atomic>
#include <filesystem>
#include <fstream>
#include <thread>

#include "store/sizes.hpp"
#include "store/temporary.hpp"

namespace duskwire::store {
namespace {

using testing::Folder;
using testing::open_or_fail;
using testing::save_of;
using testing::saved_revision;
using testing::sized;

TEST(Restore, OfABackupMadeWhileWritingHoldsTheSame) {
  const Folder folder;
  const auto workspace = open_or_fail(folder.file("w"));
  saved_revision(workspace->save(save_of("garden", 0, "{}")));
  std::atomic<bool> enough = false;
  std::thread writer([&] {
    for (int i = 1; !enough; ++i) saved_revision(workspace->save(save_of("garden", i, std::string(20'000, 'x'))));
  });
  const int rounds = sized(3, 200, 200);
  for (int round = 0; round < rounds; ++round) {
    const std::string backup = folder.file("backup");
    const std::string elsewhere = folder.file("elsewhere");
    ASSERT_TRUE(workspace->back_up(backup).ok());
    std::string fingerprint;
    {
      const auto copy = open_or_fail(backup);
      fingerprint = copy->contents().value().fingerprint;
    }
    const auto restored = restore(backup, elsewhere, testing::counting_environment());
    ASSERT_TRUE(restored.ok()) << restored.error().message;
    EXPECT_EQ(restored.value().fingerprint, fingerprint);
    EXPECT_EQ(restored.value().jobs, 1);
    for (const std::string& path : {backup, elsewhere}) std::filesystem::remove(path);
  }
  enough = true;
  writer.join();
  // At rest the backup has the workspace's own fingerprint.
  ASSERT_TRUE(workspace->back_up(folder.file("last")).ok());
  EXPECT_EQ(restore(folder.file("last"), folder.file("again"), testing::counting_environment()).value().fingerprint,
            workspace->contents().value().fingerprint);
}

// A page that worked on after the backup was made meets the restored workspace, in which its number is there again.
TEST(Restore, AnOldBaseOverwritesNothingThatWasSavedAfterIt) {
  const Folder folder;
  std::string lost;
  std::string kept;
  {
    const auto workspace = open_or_fail(folder.file("w"));
    kept = std::get<Saved>(workspace->save(save_of("garden", 0, "{\"n\":1}"))).checksum;
    ASSERT_TRUE(workspace->back_up(folder.file("backup")).ok());
    lost = std::get<Saved>(workspace->save(save_of("garden", 1, "{\"n\":2}"))).checksum;
  }
  ASSERT_TRUE(restore(folder.file("backup"), folder.file("again"), testing::counting_environment()).ok());
  const auto again = open_or_fail(folder.file("again"));
  Save other = save_of("garden", 1, "{\"other\":2}");
  other.save_id = "another person's";
  other.base_checksum = kept;
  ASSERT_EQ(saved_revision(again->save(other)), 2) << "what the backup holds is a good base";
  Save stale = save_of("garden", 2, "{\"n\":3}");
  stale.base_checksum = lost;
  const auto refused = again->save(stale);
  ASSERT_TRUE(std::holds_alternative<Conflict>(refused));
  EXPECT_EQ(std::get<Conflict>(refused).current_revision, 2);
  EXPECT_EQ(again->job("garden").value().document, "{\"other\":2}");
  stale.base_checksum = std::get<Conflict>(refused).current_checksum;
  EXPECT_EQ(saved_revision(again->save(stale)), 3) << "once a person has decided";
  EXPECT_EQ(again->revision("garden", 2).value().document, "{\"other\":2}");
}

TEST(Restore, RefusesWhatIsNoBackupAndLeavesNothing) {
  const Folder folder;
  const auto environment = testing::counting_environment();
  EXPECT_EQ(restore(folder.file("none"), folder.file("to"), environment).error().code, ErrorCode::not_found);
  std::ofstream(folder.file("empty")).close();
  EXPECT_EQ(restore(folder.file("empty"), folder.file("to"), environment).error().code, ErrorCode::not_found);
  std::ofstream(folder.file("text")) << std::string(9000, 'x');
  EXPECT_EQ(restore(folder.file("text"), folder.file("to"), environment).error().code, ErrorCode::invalid);
  EXPECT_FALSE(std::filesystem::exists(folder.file("to")));
  {
    const auto workspace = open_or_fail(folder.file("w"));
    saved_revision(workspace->save(save_of("garden", 0, "{}")));
  }
  EXPECT_EQ(restore(folder.file("w"), folder.file("text"), environment).error().code, ErrorCode::conflict);
}

TEST(Salvage, OfASoundWorkspaceSavesAll) {
  const Folder folder;
  {
    const auto workspace = open_or_fail(folder.file("w"));
    for (int i = 0; i < 5; ++i) saved_revision(workspace->save(save_of("garden", i, "{}")));
    ASSERT_TRUE(workspace->set_archived("garden", true).ok());
    ASSERT_TRUE(workspace->add_picture({sha256_hex("p"), "image/png", 1, 1, "p"}, sha256_hex("posted")).ok());
    saved_revision(workspace->save_shop_catalogue({0, "s", "{}"}));
  }
  const auto salvaged = salvage(folder.file("w"), folder.file("new"), testing::counting_environment());
  ASSERT_TRUE(salvaged.ok()) << salvaged.error().message;
  EXPECT_EQ(salvaged.value().jobs, 1);
  EXPECT_EQ(salvaged.value().revisions, 5);
  EXPECT_EQ(salvaged.value().pictures, 1);
  EXPECT_EQ(salvaged.value().shop_catalogues, 1);
  EXPECT_TRUE(salvaged.value().lost.empty()) << salvaged.value().lost.front();
  EXPECT_TRUE(salvaged.value().doubted.empty()) << salvaged.value().doubted.front();
  const auto saved = open_or_fail(folder.file("new"));
  const auto before = open_or_fail(folder.file("w"));
  EXPECT_EQ(saved->workspace_id(), before->workspace_id());
  EXPECT_TRUE(saved->jobs().value()[0].archived);
  EXPECT_TRUE(saved->picture(sha256_hex("posted")).ok());
  EXPECT_TRUE(saved->verify().value().empty());
  EXPECT_FALSE(std::filesystem::exists(folder.file("new.salvaging-copy")));
}

TEST(Salvage, RefusesToWriteOverAFileAndWhatHoldsNothing) {
  const Folder folder;
  const auto environment = testing::counting_environment();
  EXPECT_EQ(salvage(folder.file("none"), folder.file("to"), environment).error().code, ErrorCode::not_found);
  std::ofstream(folder.file("text")) << std::string(9000, 'x');
  EXPECT_EQ(salvage(folder.file("text"), folder.file("to"), environment).error().code, ErrorCode::invalid);
  EXPECT_FALSE(std::filesystem::exists(folder.file("to")));
  EXPECT_FALSE(std::filesystem::exists(folder.file("to.salvaging-copy")));
  EXPECT_EQ(salvage(folder.file("text"), folder.file("text"), environment).error().code, ErrorCode::conflict);
}

}  // namespace
}  // namespace duskwire::store
