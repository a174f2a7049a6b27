// SPDX-License-Identifier: Apache-2.0
// Bad files and bad luck: foreign, later, tampered, cut, flipped, full. The answer is a clear refusal, and the file
// stays as it is; never a crash, never silently different data.
#include <SQLiteCpp/SQLiteCpp.h>
#include <gtest/gtest.h>

#include <cctype>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <random>

#include "store/temporary.hpp"
#include "store/workspace.hpp"

namespace duskwire::store {
namespace {

using testing::Folder;
using testing::open_or_fail;
using testing::save_of;
using testing::saved_revision;

std::string bytes_of(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

void write_bytes(const std::string& path, const std::string& bytes) {
  std::ofstream(path, std::ios::binary | std::ios::trunc) << bytes;
}

Error refusal(const std::string& path) {
  const auto opened = Workspace::open(path, testing::counting_environment());
  EXPECT_FALSE(opened.ok());
  return opened.ok() ? Error{} : opened.error();
}

// A closed workspace with a job of 30 revisions, all in the main file.
void make_workspace(const std::string& path) {
  const auto workspace = open_or_fail(path);
  for (int i = 0; i < 30; ++i) {
    saved_revision(
        workspace->save(save_of("garden", i, "{\"n\":\"" + std::string(900, static_cast<char>('a' + i % 26)) + "\"}")));
  }
}

void change(const std::string& path, const std::string& sql) {
  SQLite::Database database(path, SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
  database.exec(sql);
}

TEST(Damage, AFileThatIsNoDatabaseIsLeftAsItIs) {
  const Folder folder;
  const std::string text(5000, 'x');
  write_bytes(folder.file("w"), text);
  EXPECT_EQ(refusal(folder.file("w")).code, ErrorCode::invalid);
  EXPECT_EQ(bytes_of(folder.file("w")), text);
}

TEST(Damage, AnotherProgramsDatabaseIsRefused) {
  const Folder folder;
  change(folder.file("w"), "CREATE TABLE recipes (id INTEGER); PRAGMA application_id = 7");
  const Error error = refusal(folder.file("w"));
  EXPECT_EQ(error.code, ErrorCode::invalid);
  EXPECT_NE(error.message.find("not a duskwire workspace"), std::string::npos) << error.message;
}

// Without a table, yet not new: another program has begun it, or a version of tables was set by hand.
TEST(Damage, ADatabaseWithoutTablesThatIsMarkedIsNotTakenForANewFile) {
  for (const char* mark : {"PRAGMA application_id = 7", "PRAGMA user_version = 2"}) {
    const Folder folder;
    change(folder.file("w"), mark);
    EXPECT_EQ(refusal(folder.file("w")).code, ErrorCode::invalid) << mark;
  }
}

TEST(Damage, NamesWithSignsOfAUriAndWithoutAFolderOpen) {
  const Folder folder;
  const std::filesystem::path before = std::filesystem::current_path();
  std::filesystem::current_path(folder.file("."));
  for (const char* name : {"plain", "a?mode=memory", "50%", "#7", "a%20b"}) {
    saved_revision(open_or_fail(name)->save(save_of("garden", 0, "{}")));
    EXPECT_EQ(saved_revision(open_or_fail(name)->save(save_of("garden", 1, "{}"))), 2) << name;
    EXPECT_TRUE(std::filesystem::exists(name)) << name;
  }
  std::filesystem::current_path(before);
}

// Both have as many events and more, so that only what the events say tells them apart.
TEST(Damage, TheLogOfAnotherWorkspaceWithAsManyEventsIsRefused) {
  const Folder folder;
  make_workspace(folder.file("w"));
  const auto other = open_or_fail(folder.file("other"));
  for (int i = 0; i < 40; ++i) saved_revision(other->save(save_of("yard", i, "{}")));
  std::filesystem::copy_file(folder.file("other-wal"), folder.file("w-wal"));
  EXPECT_EQ(refusal(folder.file("w")).code, ErrorCode::invalid);
  EXPECT_EQ(bytes_of(folder.file("w-wal")), bytes_of(folder.file("other-wal")));
}

// Only the full check reads what no one asks for.
TEST(Damage, WhileItIsOpenIsFoundByTheFullCheck) {
  const Folder folder;
  {
    const auto workspace = open_or_fail(folder.file("w"));
    for (int i = 0; i < 60; ++i) saved_revision(workspace->save(save_of("garden", i, std::string(90'000, 'x'))));
  }
  const auto workspace = open_or_fail(folder.file("w"));
  // More than SQLite keeps in memory: the middle is read anew. Zeros end the list of pages of a long document.
  std::string bytes = bytes_of(folder.file("w"));
  bytes.replace(bytes.size() / 4096 / 2 * 4096, 4, 4, '\0');
  write_bytes(folder.file("w"), bytes);
  const auto wrong = workspace->verify();
  EXPECT_TRUE(!wrong.ok() || !wrong.value().empty());
}

TEST(Damage, ALaterVersionsFileIsRefusedUntouched) {
  const Folder folder;
  make_workspace(folder.file("w"));
  change(folder.file("w"), "PRAGMA user_version = 9");
  EXPECT_EQ(refusal(folder.file("w")).code, ErrorCode::unsupported);
  EXPECT_EQ(SQLite::Database(folder.file("w")).execAndGet("PRAGMA user_version").getInt(), 9);
}

// A trigger of a foreign file would run at our next save.
TEST(Damage, AWorkspaceWithATriggerOfAnotherHandIsRefused) {
  const Folder folder;
  make_workspace(folder.file("w"));
  change(folder.file("w"), "CREATE TRIGGER theirs AFTER INSERT ON revisions BEGIN UPDATE jobs SET archived = 1; END");
  EXPECT_EQ(refusal(folder.file("w")).code, ErrorCode::invalid);
}

TEST(Damage, RevisionsCannotBeChangedOrDeletedEvenBySql) {
  const Folder folder;
  make_workspace(folder.file("w"));
  for (const char* sql : {"UPDATE revisions SET document = '{}'", "DELETE FROM revisions WHERE revision = 3"}) {
    EXPECT_THROW(change(folder.file("w"), sql), SQLite::Exception) << sql;
  }
}

// Nothing of it would be found wrong when it is read: the next save would go over a page that is in use.
TEST(Damage, AListOfFreePagesThatNamesOneInUseIsRefused) {
  const Folder folder;
  make_workspace(folder.file("w"));
  std::string bytes = bytes_of(folder.file("w"));
  ASSERT_EQ(bytes.substr(32, 8), std::string(8, '\0')) << "no page is free";
  bytes[35] = static_cast<char>(bytes.size() / 4096);
  bytes[39] = 1;
  write_bytes(folder.file("w"), bytes);
  EXPECT_EQ(refusal(folder.file("w")).code, ErrorCode::invalid);
  EXPECT_EQ(bytes_of(folder.file("w")), bytes);
}

// The entry stays in its order, so that only a comparison with the table tells.
TEST(Damage, AnIndexThatNamesARowItsTableDoesNotHaveIsRefused) {
  const Folder folder;
  make_workspace(folder.file("w"));
  std::string bytes = bytes_of(folder.file("w"));
  const std::string entry = "revisiongarden 30";
  std::size_t changed = 0;
  for (std::size_t at = bytes.find(entry); at != std::string::npos; at = bytes.find(entry, at + 1)) {
    // In the table a digest follows, in the index the number of the row.
    const bool in_table = std::isxdigit(static_cast<unsigned char>(bytes[at + entry.size() + 1])) != 0 &&
                          std::isxdigit(static_cast<unsigned char>(bytes[at + entry.size() + 2])) != 0;
    if (in_table) continue;
    bytes[at + entry.size() - 1] = '1';
    ++changed;
  }
  ASSERT_EQ(changed, 1u);
  write_bytes(folder.file("w"), bytes);
  EXPECT_EQ(refusal(folder.file("w")).code, ErrorCode::invalid);
  EXPECT_EQ(bytes_of(folder.file("w")), bytes);
}

TEST(Damage, ADocumentThatNoLongerMatchesItsChecksumIsNotServed) {
  const Folder folder;
  make_workspace(folder.file("w"));
  change(folder.file("w"),
         "DROP TRIGGER revisions_stay; UPDATE revisions SET document = '{\"n\":0}' WHERE revision = 30; "
         "CREATE TRIGGER revisions_stay BEFORE UPDATE ON revisions BEGIN SELECT RAISE(ABORT, "
         "'revisions are append-only'); END");
  const auto workspace = open_or_fail(folder.file("w"));
  EXPECT_EQ(workspace->job("garden").error().code, ErrorCode::invalid);
  EXPECT_TRUE(workspace->revision("garden", 29).ok());
  const auto wrong = workspace->verify();
  ASSERT_TRUE(wrong.ok());
  ASSERT_EQ(wrong.value().size(), 1u);
  EXPECT_EQ(wrong.value()[0], "revision 30 of job garden does not match its checksum");
}

// 500 seeded single-bit flips and cuts: refused, or every document that is served is one that was stored.
TEST(Damage, FlippedAndCutFilesNeverServeOtherData) {
  const Folder folder;
  make_workspace(folder.file("good"));
  const std::string good = bytes_of(folder.file("good"));
  std::mt19937 dice(20260301);
  int refused = 0;
  for (int i = 0; i < 500; ++i) {
    std::string bad = good;
    if (i % 5 == 0) {
      bad.resize(dice() % good.size());
    } else {
      bad[dice() % bad.size()] ^= static_cast<char>(1u << (dice() % 8));
    }
    const std::string path = folder.file("bad");
    std::filesystem::remove(path + "-wal");
    write_bytes(path, bad);
    const auto opened = Workspace::open(path, testing::counting_environment());
    if (!opened) {
      ++refused;
      continue;
    }
    for (std::int64_t revision = 1; revision <= 30; ++revision) {
      const auto read = opened.value()->revision("garden", revision);
      if (!read) continue;
      const std::string expected = "{\"n\":\"" + std::string(900, static_cast<char>('a' + (revision - 1) % 26)) + "\"}";
      ASSERT_EQ(read.value().document, expected) << "seeded damage " << i << ", revision " << revision;
    }
  }
  // At least the cut files, but for those that lost nothing or everything.
  EXPECT_GT(refused, 90);
}

TEST(Damage, AFullDiskIsToldAndLosesNothing) {
  const Folder folder;
  make_workspace(folder.file("w"));
  const auto workspace = open_or_fail(folder.file("w"));
  // The limit of pages stands in for the disk's: SQLite answers both with SQLITE_FULL.
  ASSERT_TRUE(workspace->limit_size(40).ok());
  const SaveOutcome outcome = workspace->save(save_of("garden", 30, std::string(4'000'000, ' ')));
  ASSERT_TRUE(std::holds_alternative<Error>(outcome));
  EXPECT_EQ(std::get<Error>(outcome).code, ErrorCode::no_room);
  EXPECT_EQ(workspace->job("garden").value().revision, 30);
  ASSERT_TRUE(workspace->limit_size(1'000'000).ok());
  EXPECT_EQ(saved_revision(workspace->save(save_of("garden", 30, "{}"))), 31);
}

TEST(Damage, AFolderThatIsMissingOrALinkIsToldWithoutAPath) {
  const Folder folder;
  for (const std::string& path : {folder.file("none/w"), std::string("/proc/w")}) {
    const Error error = refusal(path);
    EXPECT_EQ(error.code, ErrorCode::unavailable);
    EXPECT_EQ(error.message.find(path), std::string::npos);
  }
  make_workspace(folder.file("w"));
  std::filesystem::create_symlink(folder.file("w"), folder.file("link"));
  EXPECT_EQ(refusal(folder.file("link")).code, ErrorCode::unavailable);
}

}  // namespace
}  // namespace duskwire::store
