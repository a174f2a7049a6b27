// SPDX-License-Identifier: Apache-2.0
#include "store/database.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <sqlite3.h>
#include <sys/stat.h>
#include <unistd.h>

namespace duskwire::store {
namespace {

// Version 1. Documents and pictures are append-only: triggers refuse what the code never does.
constexpr const char* tables_1 = R"sql(
CREATE TABLE about (key TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT;
CREATE TABLE jobs (
  id TEXT PRIMARY KEY,
  archived INTEGER NOT NULL DEFAULT 0 CHECK (archived IN (0, 1))
) STRICT;
CREATE TABLE revisions (
  sequence INTEGER PRIMARY KEY,
  job TEXT NOT NULL REFERENCES jobs (id),
  revision INTEGER NOT NULL CHECK (revision > 0),
  changed TEXT NOT NULL,
  save_id TEXT NOT NULL,
  label TEXT NOT NULL,
  title TEXT NOT NULL,
  client TEXT NOT NULL,
  place TEXT NOT NULL,
  stage TEXT NOT NULL,
  created TEXT NOT NULL,
  summary TEXT NOT NULL,
  document TEXT NOT NULL,
  checksum TEXT NOT NULL,
  UNIQUE (job, revision),
  UNIQUE (job, save_id)
) STRICT;
CREATE TABLE pictures (
  hash TEXT PRIMARY KEY,
  media_type TEXT NOT NULL,
  width_px INTEGER NOT NULL,
  height_px INTEGER NOT NULL,
  added TEXT NOT NULL,
  bytes BLOB NOT NULL
) STRICT;
CREATE TABLE posted_pictures (
  posted_hash TEXT PRIMARY KEY,
  hash TEXT NOT NULL REFERENCES pictures (hash)
) STRICT;
CREATE TABLE shop_catalogues (
  revision INTEGER PRIMARY KEY CHECK (revision > 0),
  changed TEXT NOT NULL,
  save_id TEXT NOT NULL UNIQUE,
  document TEXT NOT NULL,
  checksum TEXT NOT NULL
) STRICT;
CREATE TRIGGER revisions_stay BEFORE UPDATE ON revisions BEGIN SELECT RAISE(ABORT, 'revisions are append-only'); END;
CREATE TRIGGER revisions_last BEFORE DELETE ON revisions BEGIN SELECT RAISE(ABORT, 'revisions are append-only'); END;
CREATE TRIGGER pictures_stay BEFORE UPDATE ON pictures BEGIN SELECT RAISE(ABORT, 'pictures are append-only'); END;
CREATE TRIGGER pictures_last BEFORE DELETE ON pictures BEGIN SELECT RAISE(ABORT, 'pictures are append-only'); END;
)sql";

void harden(SQLite::Database& database) {
  sqlite3* handle = database.getHandle();
  sqlite3_db_config(handle, SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr);
  sqlite3_db_config(handle, SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0, nullptr);
  sqlite3_db_config(handle, SQLITE_DBCONFIG_ENABLE_LOAD_EXTENSION, 0, nullptr);
  sqlite3_limit(handle, SQLITE_LIMIT_LENGTH, 64 * 1024 * 1024);
  sqlite3_limit(handle, SQLITE_LIMIT_SQL_LENGTH, 64 * 1024);
  sqlite3_limit(handle, SQLITE_LIMIT_ATTACHED, 0);
  database.exec("PRAGMA mmap_size = 0");
  database.exec("PRAGMA cell_size_check = ON");
  database.exec("PRAGMA foreign_keys = ON");
}

// A foreign file could carry views and triggers of its own: the tables must be ours to the letter.
Result<bool> has_our_tables(SQLite::Database& database) {
  SQLite::Database fresh(":memory:", SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
  fresh.exec(tables_1);
  constexpr const char* list =
      "SELECT group_concat(type || ' ' || name || ' ' || coalesce(sql, ''), char(10)) FROM "
      "(SELECT type, name, sql FROM sqlite_schema ORDER BY type, name)";
  if (database.execAndGet(list).getString() != fresh.execAndGet(list).getString()) {
    return Error{
        ErrorCode::invalid,
        "The workspace file holds other tables than this program makes. It was left as it is; open a copy that "
        "this program has made, or start with a new file."};
  }
  return true;
}

Result<bool> check_or_make(SQLite::Database& database) {
  const int id = database.execAndGet("PRAGMA application_id").getInt();
  const int version = database.execAndGet("PRAGMA user_version").getInt();
  const bool empty = database.execAndGet("SELECT count(*) FROM sqlite_schema").getInt() == 0;
  if (empty && id == 0 && version == 0) {
    SQLite::Transaction transaction(database);
    database.exec(tables_1);
    database.exec(fmt::format("PRAGMA application_id = {}", application_id));
    database.exec(fmt::format("PRAGMA user_version = {}", schema_version));
    transaction.commit();
    return true;
  }
  if (id != application_id) {
    return Error{ErrorCode::invalid, "The file is a database, but not a duskwire workspace. It was left as it is."};
  }
  if (version > schema_version) {
    return Error{
        ErrorCode::unsupported,
        fmt::format("The workspace was last used by a later version of duskwire (its tables are version {}, this "
                    "program knows {}). Install that version; the file was left as it is.",
                    version, schema_version)};
  }
  return has_our_tables(database);
}

// A new file is for its owner alone (SQLite gives its helpers the same rights). A link is not followed.
bool make_private(const std::string& path) {
  const int file = ::open(path.c_str(), O_RDWR | O_CREAT | O_CLOEXEC | O_NOFOLLOW, S_IRUSR | S_IWUSR);
  return file >= 0 && ::close(file) == 0;
}

}  // namespace

Error error_of(const SQLite::Exception& failure) {
  switch (failure.getErrorCode()) {
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
      return {ErrorCode::unavailable,
              "The workspace is in use by another duskwire. Close that one, or choose another file."};
    case SQLITE_FULL:
      return {ErrorCode::no_room, "The disk is full: nothing was stored. Free some space and save again."};
    case SQLITE_READONLY:
    case SQLITE_PERM:
    case SQLITE_CANTOPEN:
      return {ErrorCode::unavailable,
              "The workspace file cannot be opened for writing. Check the folder and its permissions."};
    case SQLITE_NOTADB:
      return {ErrorCode::invalid, "The file is not a duskwire workspace. It was left as it is."};
    case SQLITE_CORRUPT:
      return {ErrorCode::invalid,
              "The workspace file is damaged. Restore the last backup; the file was left as it is."};
    case SQLITE_NOMEM:
      return {ErrorCode::unavailable, "There is not enough memory for this. Nothing was stored."};
    default:
      return {ErrorCode::unavailable, fmt::format("The workspace file could not be read or written (code {}).",
                                                  failure.getExtendedErrorCode())};
  }
}

Result<std::unique_ptr<SQLite::Database>> open_database(const std::string& path) {
  if (!make_private(path)) {
    return Error{ErrorCode::unavailable,
                 "The workspace file cannot be opened for writing. Check the folder and its permissions."};
  }
  try {
    auto database = std::make_unique<SQLite::Database>(
        path, SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE | SQLite::OPEN_NOFOLLOW | SQLite::OPEN_FULLMUTEX);
    harden(*database);
    database->exec("PRAGMA locking_mode = EXCLUSIVE");
    if (database->execAndGet("PRAGMA integrity_check(1)").getString() != "ok") {
      return Error{ErrorCode::invalid,
                   "The workspace file is damaged. Restore the last backup; the file was left as it is."};
    }
    database->exec("PRAGMA journal_mode = WAL");
    database->exec("PRAGMA synchronous = FULL");
    const Result<bool> ours = check_or_make(*database);
    if (!ours) return ours.error();
    return Result<std::unique_ptr<SQLite::Database>>(std::move(database));
  } catch (const SQLite::Exception& failure) {
    return error_of(failure);
  }
}

}  // namespace duskwire::store
