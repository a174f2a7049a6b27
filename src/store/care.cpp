// SPDX-License-Identifier: Apache-2.0
// Care of the file: a consistent copy while work goes on, what it holds, and a full check of everything stored.
#include <SQLiteCpp/Backup.h>
#include <fmt/format.h>

#include "store/events.hpp"
#include "store/files.hpp"
#include "store/workspace_state.hpp"

namespace duskwire::store {

Result<bool> Workspace::back_up(const std::string& path) {
  return state_->run<Result<bool>>([&](SQLite::Database& db) -> Result<bool> {
    if (!make_private(path)) {
      return Error{ErrorCode::unavailable,
                   "The backup's file cannot be written. Check the folder and its permissions."};
    }
    try {
      SQLite::Database copy(path, SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE | SQLite::OPEN_NOFOLLOW);
      if (copy.execAndGet("SELECT count(*) FROM sqlite_schema").getInt() != 0) {
        return Error{ErrorCode::conflict, "The backup's file exists and is not empty. Choose another name."};
      }
      {
        // One transaction of the copy: where it is cut short the copy is empty, never half a workspace.
        SQLite::Backup backup(copy, db);
        backup.executeStep(-1);
      }
      if (event_head(copy).chain != event_head(db).chain) {
        return Error{ErrorCode::unavailable,
                     "The backup does not hold what the workspace holds. Make it again elsewhere."};
      }
      return true;
    } catch (const SQLite::Exception& failure) {
      // A fault of the copy's disk is none of the workspace's.
      Error error = error_of(failure);
      error.message = "The backup was not made. " + error.message;
      return error;
    }
  });
}

Result<Contents> Workspace::contents() {
  return state_->run<Result<Contents>>([](SQLite::Database& db) -> Result<Contents> {
    Contents contents;
    contents.jobs = db.execAndGet("SELECT count(*) FROM jobs").getInt64();
    contents.revisions = db.execAndGet("SELECT count(*) FROM revisions").getInt64();
    contents.pictures = db.execAndGet("SELECT count(*) FROM pictures").getInt64();
    contents.fingerprint = event_head(db).chain;
    return contents;
  });
}

Result<bool> Workspace::limit_size(std::int64_t pages) {
  return state_->run<Result<bool>>([&](SQLite::Database& db) -> Result<bool> {
    db.execAndGet(fmt::format("PRAGMA max_page_count = {}", pages));
    return true;
  });
}

Result<std::vector<std::string>> Workspace::verify() {
  return state_->run<Result<std::vector<std::string>>>([](SQLite::Database& db) -> Result<std::vector<std::string>> {
    std::vector<std::string> wrong;
    SQLite::Statement integrity(db, "PRAGMA integrity_check");
    while (integrity.executeStep()) {
      const std::string line = integrity.getColumn(0).getString();
      if (line != "ok") wrong.push_back(line);
    }
    SQLite::Statement keys(db, "PRAGMA foreign_key_check");
    while (keys.executeStep()) wrong.push_back("a row of " + keys.getColumn(0).getString() + " refers to nothing");
    SQLite::Statement documents(db, "SELECT job, revision, document, checksum FROM revisions ORDER BY sequence");
    while (documents.executeStep()) {
      const std::string job = documents.getColumn(0).getString();
      const std::int64_t revision = documents.getColumn(1).getInt64();
      if (checksum_of(job, revision, documents.getColumn(2).getString()) != documents.getColumn(3).getString()) {
        wrong.push_back(fmt::format("revision {} of job {} does not match its checksum", revision, job));
      }
    }
    for (std::string& line : unsealed(db)) wrong.push_back(std::move(line));
    // What was salvaged may lack revisions: it says so itself.
    SQLite::Statement gaps(db,
                           "SELECT job FROM revisions WHERE NOT EXISTS (SELECT 1 FROM about WHERE key = 'salvaged') "
                           "GROUP BY job HAVING max(revision) <> count(*)");
    while (gaps.executeStep()) wrong.push_back("job " + gaps.getColumn(0).getString() + " lacks a revision");
    SQLite::Statement pictures(db, "SELECT hash, bytes FROM pictures");
    while (pictures.executeStep()) {
      const SQLite::Column bytes = pictures.getColumn(1);
      const std::string_view view(static_cast<const char*>(bytes.getBlob()),
                                  static_cast<std::size_t>(bytes.getBytes()));
      const std::string hash = pictures.getColumn(0).getString();
      if (sha256_hex(view) != hash) wrong.push_back("picture " + hash + " does not match its checksum");
    }
    return wrong;
  });
}

}  // namespace duskwire::store
