// SPDX-License-Identifier: Apache-2.0
// A sound database whose content was changed by another hand: each change is named by the full check, is not served,
// makes a restore refuse, and what salvage takes over of it is true again.
#include <SQLiteCpp/SQLiteCpp.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>

#include "store/rescue.hpp"
#include "store/temporary.hpp"

namespace duskwire::store {
namespace {

using ::testing::Contains;
using testing::Folder;
using ::testing::HasSubstr;
using testing::open_or_fail;
using testing::save_of;
using testing::saved_revision;

const std::string first_picture = sha256_hex("p");
const std::string second_picture = sha256_hex("q");
const std::string posted = sha256_hex("as it was posted");

// Two jobs, the yard archived; two pictures, one of them posted in another form; two revisions of the shop's catalogue.
void make_workspace(const std::string& path) {
  const auto workspace = open_or_fail(path);
  for (int i = 0; i < 3; ++i) saved_revision(workspace->save(save_of("garden", i, "{}")));
  for (int i = 0; i < 2; ++i) saved_revision(workspace->save(save_of("yard", i, "{}")));
  ASSERT_TRUE(workspace->set_archived("yard", true).ok());
  ASSERT_TRUE(workspace->add_picture({first_picture, "image/png", 1, 1, "p"}, posted).ok());
  ASSERT_TRUE(workspace->add_picture({second_picture, "image/png", 1, 1, "q"}, second_picture).ok());
  for (int i = 0; i < 2; ++i) {
    saved_revision(
        workspace->save_shop_catalogue({i, "shop-" + std::to_string(i), "{\"n\":" + std::to_string(i) + "}"}));
  }
}

// Without the triggers that refuse it, which stand again afterwards to the letter.
void change(const std::string& path, const std::string& sql) {
  SQLite::Database database(path, SQLite::OPEN_READWRITE);
  std::vector<std::pair<std::string, std::string>> triggers;
  {
    SQLite::Statement query(database, "SELECT name, sql FROM sqlite_schema WHERE type = 'trigger'");
    while (query.executeStep()) {
      triggers.emplace_back(query.getColumn(0).getString(), query.getColumn(1).getString());
    }
  }
  database.exec("PRAGMA foreign_keys = OFF");
  for (const auto& [name, text] : triggers) database.exec("DROP TRIGGER " + name);
  database.exec(sql);
  for (const auto& [name, text] : triggers) {
    const std::string table = text.substr(text.find(" ON ") + 4, text.find(" BEGIN") - text.find(" ON ") - 4);
    if (database.tableExists(table)) database.exec(text);
  }
}

struct Change {
  const char* name;
  std::string sql;
  const char* finding;  // of the full check
  const char* lost;     // what salvage names
  std::int64_t revisions = 5;
  std::int64_t pictures = 2;
  std::int64_t shop_catalogues = 2;
};

const std::vector<Change>& changes() {
  static const std::vector<Change> all = {
      {"a title", "UPDATE revisions SET title = 'x' WHERE job = 'garden' AND revision = 3",
       "the facts of revision 3 of job garden do not match their event", "revision 3 of job garden: does not match its",
       4},
      {"a document", "UPDATE revisions SET document = '{ }' WHERE job = 'garden' AND revision = 3",
       "revision 3 of job garden does not match its checksum", "its document does not match its checksum", 4},
      {"a revision gone", "DELETE FROM revisions WHERE job = 'garden' AND revision = 2", "job garden lacks a revision",
       "revision garden 2: stored once, not to be read any more", 4},
      {"the last revision gone", "DELETE FROM revisions WHERE job = 'garden' AND revision = 3",
       "4 revisions are there, 5 were stored", "revision garden 3: stored once, not to be read any more", 4},
      {"a flag", "UPDATE jobs SET archived = 1 WHERE id = 'garden'", "whether job garden is archived does not match",
       nullptr},
      {"a job gone", "DELETE FROM jobs WHERE id = 'yard'", "a row of revisions refers to nothing", nullptr},
      {"an event gone", "DELETE FROM events WHERE sequence = 3", "event 3 is missing", nullptr},
      {"an event changed", "UPDATE events SET digest = 'x' WHERE sequence = 3",
       "event 3 does not follow from the one before", "does not match its event", 4},
      {"a picture's size", "UPDATE pictures SET width_px = 2 WHERE hash = '" + first_picture + "'",
       "what is kept of picture", "does not match its event", 5, 1},
      {"a picture's bytes", "UPDATE pictures SET bytes = x'00' WHERE hash = '" + first_picture + "'",
       "does not match its checksum", "does not match its hash", 5, 1},
      {"where a posted picture leads",
       "UPDATE posted_pictures SET hash = '" + second_picture + "' WHERE posted_hash = '" + posted + "'",
       "what is kept of posted picture", "the hash of posted picture"},
      {"the shop's catalogue", "UPDATE shop_catalogues SET document = '{ }' WHERE revision = 2", nullptr,
       "revision 2 of the shop's catalogue: does not match its checksum", 5, 2, 1},
      {"when the shop's catalogue was saved", "UPDATE shop_catalogues SET changed = 'x' WHERE revision = 2",
       "what is kept of shop catalogue 2", "revision 2 of the shop's catalogue: does not match its event", 5, 2, 1},
      {"the workspace's id", "UPDATE about SET value = 'w-0000000000000000' WHERE key = 'workspace_id'",
       "what is kept of the workspace's workspace_id", nullptr},
      {"the number of a row", "UPDATE revisions SET sequence = 9000000000 WHERE sequence = 5", nullptr,
       "revision yard 2: stored once, not to be read any more", 4},
  };
  return all;
}

const std::string& named(std::string_view name) {
  for (const Change& one : changes()) {
    if (one.name == name) return one.sql;
  }
  throw std::runtime_error("no such change");
}

TEST(Tamper, IsNamedByTheFullCheck) {
  for (const Change& one : changes()) {
    if (one.finding == nullptr) continue;
    const Folder folder;
    make_workspace(folder.file("w"));
    change(folder.file("w"), one.sql);
    const auto workspace = open_or_fail(folder.file("w"));
    const auto wrong = workspace->verify();
    ASSERT_TRUE(wrong.ok()) << one.name << ": " << wrong.error().message;
    EXPECT_THAT(wrong.value(), Contains(HasSubstr(one.finding))) << one.name;
  }
}

TEST(Tamper, OfABackupIsRefusedByRestoreAndLeavesNothing) {
  const Folder folder;
  make_workspace(folder.file("w"));
  change(folder.file("w"), named("a title"));
  const auto restored = restore(folder.file("w"), folder.file("new"), testing::counting_environment());
  ASSERT_FALSE(restored.ok());
  EXPECT_THAT(restored.error().message, HasSubstr("The backup is damaged (1 findings, the first: the facts of"));
  EXPECT_FALSE(std::filesystem::exists(folder.file("new")));
}

TEST(Tamper, IsNotServed) {
  const Folder folder;
  make_workspace(folder.file("w"));
  for (const char* name :
       {"a title", "a picture's size", "where a posted picture leads", "when the shop's catalogue was saved"})
    change(folder.file("w"), named(name));
  const auto workspace = open_or_fail(folder.file("w"));
  EXPECT_EQ(workspace->jobs().error().code, ErrorCode::invalid);
  EXPECT_EQ(workspace->job("garden").error().code, ErrorCode::invalid);
  EXPECT_EQ(workspace->revisions("garden", std::nullopt, 9).error().code, ErrorCode::invalid);
  EXPECT_EQ(workspace->picture(first_picture).error().code, ErrorCode::invalid);
  EXPECT_EQ(workspace->picture(posted).error().code, ErrorCode::invalid);
  EXPECT_EQ(workspace->picture(second_picture).value().bytes, "q");
  EXPECT_EQ(workspace->shop_catalogue().error().code, ErrorCode::invalid);
  EXPECT_TRUE(workspace->job("yard").ok());
  // A flag alone, in a list whose facts are right.
  make_workspace(folder.file("flag"));
  change(folder.file("flag"), named("a flag"));
  EXPECT_EQ(open_or_fail(folder.file("flag"))->jobs().error().code, ErrorCode::invalid);
  EXPECT_EQ(open_or_fail(folder.file("flag"))->job("garden").error().code, ErrorCode::invalid);
  make_workspace(folder.file("shop"));
  change(folder.file("shop"), named("the shop's catalogue"));
  EXPECT_EQ(open_or_fail(folder.file("shop"))->shop_catalogue().error().code, ErrorCode::invalid);
  make_workspace(folder.file("bytes"));
  change(folder.file("bytes"), named("a picture's bytes"));
  EXPECT_EQ(open_or_fail(folder.file("bytes"))->picture(first_picture).error().code, ErrorCode::invalid);
}

TEST(Tamper, SalvageTakesOverWhatIsTrueAndNamesTheRest) {
  for (const Change& one : changes()) {
    const Folder folder;
    make_workspace(folder.file("w"));
    change(folder.file("w"), one.sql);
    const auto salvaged = salvage(folder.file("w"), folder.file("new"), testing::counting_environment());
    ASSERT_TRUE(salvaged.ok()) << one.name << ": " << salvaged.error().message;
    EXPECT_EQ(salvaged.value().revisions, one.revisions) << one.name;
    EXPECT_EQ(salvaged.value().pictures, one.pictures) << one.name;
    EXPECT_EQ(salvaged.value().shop_catalogues, one.shop_catalogues) << one.name;
    if (one.lost != nullptr) {
      EXPECT_THAT(salvaged.value().lost, Contains(HasSubstr(one.lost))) << one.name;
    }
    const auto wrong = open_or_fail(folder.file("new"))->verify();
    ASSERT_TRUE(wrong.ok()) << one.name;
    EXPECT_TRUE(wrong.value().empty()) << one.name << ": " << wrong.value().front();
  }
}

// Tables without our rules may hold a row twice; without events nothing tells which is the true one.
TEST(Tamper, SalvageTakesWhatStandsTwiceOnce) {
  const Folder folder;
  make_workspace(folder.file("w"));
  change(folder.file("w"),
         "CREATE TABLE r AS SELECT * FROM revisions UNION ALL SELECT * FROM revisions; UPDATE r SET sequence = rowid; "
         "DROP TABLE revisions; ALTER TABLE r RENAME TO revisions;"
         "CREATE TABLE p AS SELECT * FROM pictures UNION ALL SELECT * FROM pictures; "
         "DROP TABLE pictures; ALTER TABLE p RENAME TO pictures;"
         "CREATE TABLE q AS SELECT * FROM posted_pictures UNION ALL SELECT * FROM posted_pictures; "
         "DROP TABLE posted_pictures; ALTER TABLE q RENAME TO posted_pictures;"
         "CREATE TABLE s AS SELECT * FROM shop_catalogues; UPDATE s SET save_id = 'one'; "
         "DROP TABLE shop_catalogues; ALTER TABLE s RENAME TO shop_catalogues; DELETE FROM events WHERE kind = 'shop'");
  const auto opened = Workspace::open(folder.file("w"), testing::counting_environment());
  ASSERT_FALSE(opened.ok());
  EXPECT_THAT(opened.error().message, HasSubstr("other tables than this program makes"));
  const auto salvaged = salvage(folder.file("w"), folder.file("new"), testing::counting_environment());
  ASSERT_TRUE(salvaged.ok()) << salvaged.error().message;
  EXPECT_EQ(salvaged.value().revisions, 5);
  EXPECT_EQ(salvaged.value().pictures, 2);
  EXPECT_EQ(salvaged.value().shop_catalogues, 1);
  EXPECT_THAT(salvaged.value().doubted, Contains(HasSubstr("revision 1 of the shop's catalogue: its event cannot be")));
  EXPECT_TRUE(open_or_fail(folder.file("new"))->verify().value().empty());
}

// Each event holds the one before: what is equal at the end is equal from the beginning.
TEST(Tamper, TheFingerprintCoversAllThatCameBefore) {
  const Folder folder;
  const auto fingerprint = [&](const std::string& name, const std::string& first) {
    const auto workspace = open_or_fail(folder.file(name));
    saved_revision(workspace->save(save_of("garden", 0, first)));
    saved_revision(workspace->save(save_of("yard", 0, "{}")));
    return workspace->contents().value().fingerprint;
  };
  EXPECT_EQ(fingerprint("a", "{}"), fingerprint("b", "{}"));
  EXPECT_NE(fingerprint("c", "{}"), fingerprint("d", "{ }"));
}

}  // namespace
}  // namespace duskwire::store
