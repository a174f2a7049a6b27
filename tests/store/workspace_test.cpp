// SPDX-License-Identifier: Apache-2.0
#include "store/workspace.hpp"

#include <gtest/gtest.h>
#include <sys/stat.h>

#include <thread>

#include "store/temporary.hpp"

namespace duskwire::store {
namespace {

using testing::Folder;
using testing::open_or_fail;
using testing::save_of;
using testing::saved_revision;

TEST(Workspace, KeepsEveryRevisionAcrossAReopening) {
  const Folder folder;
  std::string workspace_id;
  {
    const auto workspace = open_or_fail(folder.file("w.duskwire"));
    workspace_id = workspace->workspace_id();
    EXPECT_EQ(saved_revision(workspace->save(save_of("garden", 0, "{\"a\":1}"))), 1);
    EXPECT_EQ(saved_revision(workspace->save(save_of("garden", 1, "{\"a\":2}"))), 2);
  }
  const auto workspace = open_or_fail(folder.file("w.duskwire"));
  EXPECT_EQ(workspace->workspace_id(), workspace_id);
  const auto head = workspace->job("garden");
  ASSERT_TRUE(head);
  EXPECT_EQ(head.value().revision, 2);
  EXPECT_EQ(head.value().document, "{\"a\":2}");
  const auto first = workspace->revision("garden", 1);
  ASSERT_TRUE(first);
  EXPECT_EQ(first.value().document, "{\"a\":1}");
}

TEST(Workspace, RefusesAStaleSaveNamingBothRevisionsAndStoresNothing) {
  const Folder folder;
  const auto workspace = open_or_fail(folder.file("w"));
  saved_revision(workspace->save(save_of("garden", 0, "{}")));
  saved_revision(workspace->save(save_of("garden", 1, "{\"theirs\":1}")));
  Save stale = save_of("garden", 1, "{\"mine\":1}");
  stale.save_id = "another";
  const SaveOutcome outcome = workspace->save(stale);
  const auto* conflict = std::get_if<Conflict>(&outcome);
  ASSERT_NE(conflict, nullptr);
  EXPECT_EQ(conflict->base_revision, 1);
  EXPECT_EQ(conflict->current_revision, 2);
  EXPECT_EQ(conflict->current_save_id, "garden-after-1");
  EXPECT_EQ(workspace->job("garden").value().document, "{\"theirs\":1}");
  EXPECT_EQ(workspace->revisions("garden", std::nullopt, 10).value().size(), 2u);
}

TEST(Workspace, ARepeatedSaveGetsItsFirstAnswer) {
  const Folder folder;
  const auto workspace = open_or_fail(folder.file("w"));
  saved_revision(workspace->save(save_of("garden", 0, "{}")));
  const Save save = save_of("garden", 1, "{\"n\":2}");
  EXPECT_EQ(saved_revision(workspace->save(save)), 2);
  saved_revision(workspace->save(save_of("garden", 2, "{\"n\":3}")));
  EXPECT_EQ(saved_revision(workspace->save(save)), 2);
  EXPECT_EQ(workspace->job("garden").value().revision, 3);
}

TEST(Workspace, ANewJobNeedsAFreeIdAndAnOldOneMustExist) {
  const Folder folder;
  const auto workspace = open_or_fail(folder.file("w"));
  saved_revision(workspace->save(save_of("garden", 0, "{}")));
  Save again = save_of("garden", 0, "{\"other\":1}");
  again.save_id = "other";
  EXPECT_TRUE(std::holds_alternative<Conflict>(workspace->save(again)));
  const SaveOutcome missing = workspace->save(save_of("nowhere", 4, "{}"));
  ASSERT_TRUE(std::holds_alternative<Error>(missing));
  EXPECT_EQ(std::get<Error>(missing).code, ErrorCode::not_found);
}

TEST(Workspace, ListsTheLastChangedFirstWithItsFacts) {
  const Folder folder;
  const auto workspace = open_or_fail(folder.file("w"));
  saved_revision(workspace->save(save_of("one", 0, "{}")));
  saved_revision(workspace->save(save_of("two", 0, "{}")));
  saved_revision(workspace->save(save_of("one", 1, "{}")));
  const auto rows = workspace->jobs();
  ASSERT_TRUE(rows);
  ASSERT_EQ(rows.value().size(), 2u);
  EXPECT_EQ(rows.value()[0].id, "one");
  EXPECT_EQ(rows.value()[0].revision, 2);
  EXPECT_EQ(rows.value()[0].facts.title, "Title of one");
  EXPECT_EQ(rows.value()[1].id, "two");
}

TEST(Workspace, AnArchivedJobIsStillThere) {
  const Folder folder;
  const auto workspace = open_or_fail(folder.file("w"));
  saved_revision(workspace->save(save_of("one", 0, "{}")));
  ASSERT_TRUE(workspace->set_archived("one", true));
  EXPECT_TRUE(workspace->jobs().value()[0].archived);
  EXPECT_EQ(saved_revision(workspace->save(save_of("one", 1, "{}"))), 2);
  EXPECT_FALSE(workspace->set_archived("none", true).ok());
}

TEST(Workspace, RevisionsComeNewestFirstInPages) {
  const Folder folder;
  const auto workspace = open_or_fail(folder.file("w"));
  for (int i = 0; i < 7; ++i) saved_revision(workspace->save(save_of("one", i, "{}")));
  const auto page = workspace->revisions("one", std::nullopt, 3).value();
  ASSERT_EQ(page.size(), 3u);
  EXPECT_EQ(page[0].revision, 7);
  EXPECT_EQ(page[0].label, "Change 7");
  EXPECT_EQ(page[0].bytes, 2);
  const auto next = workspace->revisions("one", page[2].revision, 10).value();
  ASSERT_EQ(next.size(), 4u);
  EXPECT_EQ(next[0].revision, 4);
}

TEST(Workspace, APictureIsStoredOnceAndFoundByBothItsHashes) {
  const Folder folder;
  const auto workspace = open_or_fail(folder.file("w"));
  Picture picture{sha256_hex("bytes"), "image/png", 2, 3, "bytes"};
  const std::string posted = sha256_hex("as it came");
  EXPECT_TRUE(workspace->add_picture(picture, posted).value());
  EXPECT_FALSE(workspace->add_picture(picture, posted).value());
  EXPECT_EQ(workspace->picture(picture.hash).value().bytes, "bytes");
  EXPECT_EQ(workspace->picture(posted).value().hash, picture.hash);
  EXPECT_EQ(workspace->picture(sha256_hex("none")).error().code, ErrorCode::not_found);
  picture.bytes = "byte";
  EXPECT_EQ(workspace->add_picture(picture, posted).error().code, ErrorCode::invalid);
}

// Numbers are given again after a backup was put back: what tells the same number apart is the revision's checksum.
TEST(Workspace, ASaveFromAnotherRevisionOfTheSameNumberIsAConflict) {
  const Folder folder;
  const auto workspace = open_or_fail(folder.file("w"));
  const auto first = std::get<Saved>(workspace->save(save_of("one", 0, "{\"n\":1}")));
  EXPECT_EQ(workspace->job("one").value().checksum, first.checksum);
  EXPECT_EQ(first.checksum.size(), 64u);
  Save save = save_of("one", 1, "{\"n\":2}");
  save.base_checksum = std::string(64, '0');
  const auto refused = std::get<Conflict>(workspace->save(save));
  EXPECT_EQ(refused.current_revision, 1);
  EXPECT_EQ(refused.current_checksum, first.checksum);
  EXPECT_EQ(workspace->job("one").value().document, "{\"n\":1}");
  save.base_checksum = first.checksum;
  EXPECT_EQ(saved_revision(workspace->save(save)), 2);
  const auto repeated = std::get<Saved>(workspace->save(save));
  EXPECT_EQ(repeated.checksum, workspace->job("one").value().checksum) << "the answer that got lost names it too";
}

TEST(Workspace, TheShopCatalogueHasRevisionsToo) {
  const Folder folder;
  const auto workspace = open_or_fail(folder.file("w"));
  EXPECT_EQ(workspace->shop_catalogue().value().revision, 0);
  EXPECT_EQ(saved_revision(workspace->save_shop_catalogue({0, "s1", "{\"n\":1}"})), 1);
  EXPECT_EQ(saved_revision(workspace->save_shop_catalogue({0, "s1", "{\"n\":1}"})), 1);
  EXPECT_TRUE(std::holds_alternative<Conflict>(workspace->save_shop_catalogue({0, "s2", "{\"n\":2}"})));
  EXPECT_EQ(saved_revision(workspace->save_shop_catalogue({1, "s3", "{\"n\":3}"})), 2);
  EXPECT_EQ(workspace->shop_catalogue().value().document, "{\"n\":3}");
  const std::string checksum = workspace->shop_catalogue().value().checksum;
  EXPECT_TRUE(
      std::holds_alternative<Conflict>(workspace->save_shop_catalogue({2, "s4", "{\"n\":4}", std::string(64, '0')})));
  EXPECT_EQ(saved_revision(workspace->save_shop_catalogue({2, "s4", "{\"n\":4}", checksum})), 3);
}

TEST(Workspace, IsReadableByItsOwnerAlone) {
  const Folder folder;
  const auto workspace = open_or_fail(folder.file("w"));
  saved_revision(workspace->save(save_of("one", 0, "{}")));
  for (const char* name : {"w", "w-wal"}) {
    struct stat status {};
    ASSERT_EQ(::stat(folder.file(name).c_str(), &status), 0) << name;
    EXPECT_EQ(status.st_mode & 0777, 0600u) << name;
  }
}

TEST(Workspace, ASecondProgramIsRefusedWhileTheFirstHoldsTheFile) {
  const Folder folder;
  auto first = open_or_fail(folder.file("w"));
  const auto second = Workspace::open(folder.file("w"), testing::counting_environment());
  ASSERT_FALSE(second.ok());
  EXPECT_EQ(second.error().code, ErrorCode::unavailable);
  EXPECT_NE(second.error().message.find("in use by another duskwire"), std::string::npos) << second.error().message;
  first.reset();
  EXPECT_TRUE(Workspace::open(folder.file("w"), testing::counting_environment()).ok());
}

TEST(Workspace, SavesFromManyThreadsLeaveNoGap) {
  const Folder folder;
  const auto workspace = open_or_fail(folder.file("w"));
  saved_revision(workspace->save(save_of("one", 0, "{}")));
  std::vector<std::thread> threads;
  for (int t = 0; t < 8; ++t) {
    threads.emplace_back([&workspace, t] {
      for (int i = 0; i < 20; ++i) {
        Save save = save_of("one", workspace->job("one").value().revision, "{}");
        save.save_id = std::to_string(t) + "-" + std::to_string(i);
        while (std::holds_alternative<Conflict>(workspace->save(save))) {
          save.base_revision = workspace->job("one").value().revision;
        }
      }
    });
  }
  for (std::thread& thread : threads) thread.join();
  EXPECT_EQ(workspace->job("one").value().revision, 161);
  EXPECT_TRUE(workspace->verify().value().empty());
}

TEST(Workspace, ABackupMadeWhileWorkGoesOnIsAWholeWorkspace) {
  const Folder folder;
  const auto workspace = open_or_fail(folder.file("w"));
  saved_revision(workspace->save(save_of("one", 0, "{\"n\":1}")));
  ASSERT_TRUE(workspace->back_up(folder.file("copy")).ok());
  EXPECT_EQ(workspace->back_up(folder.file("copy")).error().code, ErrorCode::conflict);
  const auto copy = open_or_fail(folder.file("copy"));
  EXPECT_EQ(copy->job("one").value().document, "{\"n\":1}");
  EXPECT_TRUE(copy->verify().value().empty());
}

// FIPS 180-4 example, as published with SHA-256: the digest of "abc".
TEST(Sha256, EqualsThePublishedExample) {
  EXPECT_EQ(sha256_hex("abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
}

TEST(Workspace, WhatIsNotThereIsToldByItsName) {
  const Folder folder;
  const auto workspace = open_or_fail(folder.file("w"));
  for (const Error& error :
       {workspace->job("none").error(), workspace->revision("none", 1).error(),
        workspace->revisions("none", std::nullopt, 5).error(), workspace->set_archived("none", true).error()}) {
    EXPECT_EQ(error.code, ErrorCode::not_found);
    EXPECT_NE(error.message.find("\"none\""), std::string::npos) << error.message;
  }
}

}  // namespace
}  // namespace duskwire::store
