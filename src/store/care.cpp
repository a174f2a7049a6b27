// SPDX-License-Identifier: Apache-2.0
// Care of the file: a consistent copy while work goes on, and a full check of everything stored.
#include <SQLiteCpp/Backup.h>
#include <fmt/format.h>

#include "store/workspace_state.hpp"

namespace duskwire::store {

Result<bool> Workspace::back_up(const std::string& path) {
  return state_->run<Result<bool>>([&](SQLite::Database& db) -> Result<bool> {
    SQLite::Database copy(path, SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE | SQLite::OPEN_NOFOLLOW);
    if (copy.execAndGet("SELECT count(*) FROM sqlite_schema").getInt() != 0) {
      return Error{ErrorCode::conflict, "The backup's file exists and is not empty. Choose another name."};
    }
    SQLite::Backup backup(copy, db);
    backup.executeStep(-1);
    return true;
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
    SQLite::Statement gaps(db, "SELECT job FROM revisions GROUP BY job HAVING max(revision) <> count(*)");
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
