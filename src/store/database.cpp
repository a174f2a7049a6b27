// SPDX-License-Identifier: Apache-2.0
#include "store/database.hpp"

#include <fmt/format.h>
#include <sqlite3.h>

#include <cstdlib>
#include <filesystem>
#include <optional>

#include "store/events.hpp"
#include "store/files.hpp"
#include "store/index_check.hpp"
#include "store/log_check.hpp"

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

// Version 2 adds the chain of events.
constexpr const char* tables_2 = R"sql(
CREATE TABLE events (
  sequence INTEGER PRIMARY KEY,
  kind TEXT NOT NULL,
  subject TEXT NOT NULL,
  digest TEXT NOT NULL,
  chain TEXT NOT NULL
) STRICT;
CREATE INDEX events_of ON events (kind, subject);
CREATE TRIGGER events_stay BEFORE UPDATE ON events BEGIN SELECT RAISE(ABORT, 'events are append-only'); END;
CREATE TRIGGER events_last BEFORE DELETE ON events BEGIN SELECT RAISE(ABORT, 'events are append-only'); END;
)sql";

void harden(SQLite::Database& database) {
  sqlite3* handle = database.getHandle();
  // A file that is refused stays as it is: its log must not go into it when it is closed again.
  sqlite3_db_config(handle, SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, 1, nullptr);
  sqlite3_db_config(handle, SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr);
  sqlite3_db_config(handle, SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0, nullptr);
  sqlite3_db_config(handle, SQLITE_DBCONFIG_ENABLE_LOAD_EXTENSION, 0, nullptr);
  sqlite3_limit(handle, SQLITE_LIMIT_LENGTH, 64 * 1024 * 1024);
  sqlite3_limit(handle, SQLITE_LIMIT_SQL_LENGTH, 64 * 1024);
  sqlite3_limit(handle, SQLITE_LIMIT_ATTACHED, 0);
  sqlite3_limit(handle, SQLITE_LIMIT_COLUMN, 64);
  sqlite3_limit(handle, SQLITE_LIMIT_EXPR_DEPTH, 64);
  sqlite3_limit(handle, SQLITE_LIMIT_COMPOUND_SELECT, 8);
  sqlite3_limit(handle, SQLITE_LIMIT_VDBE_OP, 25'000);
  sqlite3_limit(handle, SQLITE_LIMIT_FUNCTION_ARG, 16);
  sqlite3_limit(handle, SQLITE_LIMIT_LIKE_PATTERN_LENGTH, 64);
  sqlite3_limit(handle, SQLITE_LIMIT_VARIABLE_NUMBER, 32);
  sqlite3_limit(handle, SQLITE_LIMIT_TRIGGER_DEPTH, 4);
  sqlite3_limit(handle, SQLITE_LIMIT_WORKER_THREADS, 0);
  database.exec("PRAGMA mmap_size = 0");
  database.exec("PRAGMA cell_size_check = ON");
  database.exec("PRAGMA foreign_keys = ON");
}

// A foreign file could carry views and triggers of its own: the tables must be ours to the letter.
Result<bool> has_our_tables(SQLite::Database& database, int version) {
  SQLite::Database fresh(":memory:", SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
  fresh.exec(tables_1);
  if (version >= 2) fresh.exec(tables_2);
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

Error damaged_file() {
  return {ErrorCode::invalid,
          "The workspace file is damaged. Restore the last backup, or run duskwire salvage; the file was left as it "
          "is."};
}

Result<bool> check_or_make(SQLite::Database& database) {
  const int id = database.execAndGet("PRAGMA application_id").getInt();
  const int version = database.execAndGet("PRAGMA user_version").getInt();
  const bool empty = database.execAndGet("SELECT count(*) FROM sqlite_schema").getInt() == 0;
  if (empty && id == 0 && version == 0) {
    SQLite::Transaction transaction(database);
    database.exec(tables_1);
    database.exec(tables_2);
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
  if (version < 1)
    return Error{ErrorCode::invalid, "The workspace file has no version of its tables. It was left as it is."};
  const Result<bool> ours = has_our_tables(database, version);
  if (!ours) return ours;
  if (!indexes_agree(database)) return damaged_file();
  if (version == schema_version) return true;
  SQLite::Transaction transaction(database, SQLite::TransactionBehavior::IMMEDIATE);
  database.exec(tables_2);
  append_events_of_all(database);
  database.exec(fmt::format("PRAGMA user_version = {}", schema_version));
  transaction.commit();
  return true;
}

// What lies beside the file is taken in by SQLite at once, so it is judged before.
Result<bool> may_be_taken_in(const std::string& path) {
  if (is_log_damaged(read_bytes(path + "-wal"))) {
    return Error{
        ErrorCode::invalid,
        "The log beside the workspace file (its name ends in -wal) is damaged in its middle: what was saved "
        "last cannot all be read. Both were left as they are; restore the last backup, or run duskwire salvage."};
  }
  std::error_code none;
  const auto journal_bytes = std::filesystem::file_size(path + "-journal", none);
  if (none || journal_bytes == 0 || std::filesystem::file_size(path, none) <= 4096) return true;
  return Error{ErrorCode::invalid,
               "A file whose name ends in -journal lies beside the workspace file. A workspace has none once it is "
               "made: it belongs to another file, or to a copy that was cut short. Move it away, or make the copy "
               "again; both were left as they are."};
}

// SQLite takes the path as a URI then: what has a meaning there is written by its number.
std::string uri_without_log(const std::string& path) {
  std::string uri = "file:";
  for (const char c : path) {
    if (c == '%' || c == '?' || c == '#') {
      uri += fmt::format("%{:02X}", static_cast<unsigned>(c));
    } else {
      uri += c;
    }
  }
  return uri + "?immutable=1";
}

// The check takes a page that the disk did not give for a broken one, and only its words tell which it was: who is told
// that the file is damaged would restore a backup for a loose cable.
bool is_disk_fault(const std::string& finding) {
  static const std::string code_is = "error code=";
  const std::size_t at = finding.find(code_is);
  if (at == std::string::npos) return finding.find("failed to get page") != std::string::npos;
  return (std::atoi(finding.c_str() + at + code_is.size()) & 0xff) == SQLITE_IOERR;
}

}  // namespace

std::optional<EventHead> head_without_log(const std::string& path) {
  try {
    SQLite::Database file(uri_without_log(path), SQLite::OPEN_READONLY | SQLite::OPEN_URI);
    harden(file);
    const EventHead head = event_head(file);
    if (!is_linked(file, head)) return std::nullopt;
    return head;
  } catch (const SQLite::Exception&) {
    return std::nullopt;
  }
}

bool leads_on(SQLite::Database& database, const EventHead& before) {
  SQLite::Statement query(database, "SELECT chain FROM events WHERE sequence = ?");
  query.bind(1, before.sequence);
  return query.executeStep() && query.getColumn(0).getString() == before.chain;
}

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
      return damaged_file();
    case SQLITE_NOMEM:
      return {ErrorCode::unavailable, "There is not enough memory for this. Nothing was stored."};
    case SQLITE_IOERR:
      return {ErrorCode::unavailable,
              fmt::format("The disk failed to read or write the workspace (code {}). The workspace was closed and is "
                          "opened anew for the next request: try again; a save that was kept after all is found again. "
                          "If this comes back, copy your backups away and check the disk.",
                          failure.getExtendedErrorCode())};
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
  const Result<bool> beside = may_be_taken_in(path);
  if (!beside) return beside.error();
  try {
    const std::optional<EventHead> before = head_without_log(path);
    auto database = std::make_unique<SQLite::Database>(
        path, SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE | SQLite::OPEN_NOFOLLOW | SQLite::OPEN_FULLMUTEX);
    harden(*database);
    database->exec("PRAGMA locking_mode = EXCLUSIVE");
    const std::string finding = database->execAndGet("PRAGMA quick_check(1)").getString();
    if (is_disk_fault(finding)) return error_of(SQLite::Exception("a page could not be read", SQLITE_IOERR));
    if (finding != "ok") return damaged_file();
    if (before && !leads_on(*database, *before)) {
      return Error{ErrorCode::invalid,
                   "The log beside the workspace file (its name ends in -wal) belongs to another file or to an earlier "
                   "time. Both were left as they are; put the right log back, or move this one away."};
    }
    database->exec("PRAGMA journal_mode = WAL");
    database->exec("PRAGMA synchronous = FULL");
    const Result<bool> ours = check_or_make(*database);
    if (!ours) return ours.error();
    // After a failed sync the log may be whole in the cache and not on the disk; once it is in the file, and synced
    // there, the next begins anew.
    if (database->execAndGet("PRAGMA wal_checkpoint(TRUNCATE)").getInt() != 0) {
      return error_of(SQLite::Exception(database->getHandle(), SQLITE_BUSY));
    }
    sqlite3_db_config(database->getHandle(), SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, 0, nullptr);
    return Result<std::unique_ptr<SQLite::Database>>(std::move(database));
  } catch (const SQLite::Exception& failure) {
    return error_of(failure);
  }
}

}  // namespace duskwire::store
