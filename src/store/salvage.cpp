// SPDX-License-Identifier: Apache-2.0
// Salvage works on a copy beside the new file. Rows are read one at a time by their number, so that a broken page costs
// only the rows on it; a broken first page is replaced by that of a new workspace, whose tables lie at the same places.
#include <fmt/format.h>
#include <sqlite3.h>

#include <algorithm>
#include <filesystem>
#include <optional>
#include <set>
#include <utility>

#include "store/events.hpp"
#include "store/files.hpp"
#include "store/log_check.hpp"
#include "store/rescue.hpp"
#include "store/workspace_state.hpp"

namespace duskwire::store {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t page_bytes = 4096;

// The copy, open and with tables that can be asked, or nothing.
std::unique_ptr<SQLite::Database> open_copy(const std::string& path) {
  try {
    auto copy = std::make_unique<SQLite::Database>(path, SQLite::OPEN_READWRITE | SQLite::OPEN_NOFOLLOW);
    sqlite3_db_config(copy->getHandle(), SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr);
    sqlite3_db_config(copy->getHandle(), SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0, nullptr);
    copy->exec("PRAGMA mmap_size = 0");
    copy->exec("PRAGMA cell_size_check = ON");
    copy->exec("PRAGMA locking_mode = EXCLUSIVE");
    SQLite::Statement probe(*copy, "SELECT job, revision, document, checksum FROM revisions WHERE sequence = 1");
    static_cast<void>(probe.executeStep());
    return copy;
  } catch (const SQLite::Exception&) {
    return nullptr;
  }
}

// Puts the first page of a new workspace, with this file's length in it, over the copy's.
bool mend_first_page(const std::string& copy, const std::string& pattern, const Environment& environment) {
  std::string bytes = read_bytes(copy);
  if (bytes.size() < page_bytes) return false;
  {
    const auto made = Workspace::open(pattern, environment);
    if (!made) return false;
  }
  std::string first = read_bytes(pattern).substr(0, page_bytes);
  remove_workspace(pattern);
  if (first.size() < page_bytes) return false;
  const std::size_t pages = bytes.size() / page_bytes;
  for (std::size_t i = 0; i < 4; ++i) first[28 + i] = static_cast<char>(pages >> (24 - 8 * i));
  // The length above counts only where both of these numbers agree; a file without free pages has none listed.
  for (std::size_t i = 0; i < 4; ++i) first[92 + i] = first[24 + i];
  for (std::size_t i = 32; i < 40; ++i) first[i] = 0;
  bytes.replace(0, page_bytes, first);
  return write_bytes(copy, bytes);
}

std::int64_t number_or(SQLite::Database& db, const std::string& query, std::int64_t otherwise) {
  try {
    return db.execAndGet(query).getInt64();
  } catch (const SQLite::Exception&) {
    return otherwise;
  }
}

// Calls `take(row)` for each row of `select` (which asks for one by its number); a row that cannot be read is passed,
// and counted by what is missing in the end. What `take` throws is the new file's fault, and no row's.
template <class Take>
void for_each_row(SQLite::Database& db, const std::string& select, std::int64_t last, Take&& take) {
  for (std::int64_t number = 1; number <= last; ++number) {
    std::optional<SQLite::Statement> row;
    try {
      row.emplace(db, select);
      row->bind(1, number);
      if (!row->executeStep()) continue;
    } catch (const SQLite::Exception&) {
      continue;
    }
    take(*row);
  }
}

// No table can hold more rows than its highest number; where not even that can be read, than the file has room for.
std::int64_t last_row(SQLite::Database& db, const char* table, std::int64_t file_bytes) {
  const std::int64_t most = file_bytes / 16 + 1;
  const std::int64_t last = number_or(db, fmt::format("SELECT max(rowid) FROM {}", table), -1);
  if (last >= 0 && last <= most) return last;
  return std::min<std::int64_t>(most, 2'000'000);
}

std::string event_digest(SQLite::Database& db, const char* kind, const std::string& subject) {
  try {
    SQLite::Statement query(db,
                            "SELECT digest FROM events WHERE kind = ? AND subject = ? ORDER BY sequence DESC LIMIT 1");
    query.bind(1, kind);
    query.bind(2, subject);
    if (query.executeStep()) return query.getColumn(0).getString();
  } catch (const SQLite::Exception&) {
  }
  return "";
}

bool fits_log(SQLite::Database& db, const EventHead& before) {
  try {
    return leads_on(db, before);
  } catch (const SQLite::Exception&) {
    // Not to be read with the log, but without it.
    return false;
  }
}

// Browsers know the workspace by its id: it stays the same one. Empty where it cannot be trusted.
std::string known_id(SQLite::Database& db) {
  try {
    const std::string id = db.execAndGet("SELECT value FROM about WHERE key = 'workspace_id'").getString();
    if (id.rfind("w-", 0) == 0 && event_digest(db, "workspace", "workspace_id") == digest_of({id})) return id.substr(2);
  } catch (const SQLite::Exception&) {
  }
  return "";
}

}  // namespace

// Moves the rows from the copy to the new workspace.
class Salvager {
 public:
  Salvager(SQLite::Database& from, SQLite::Database& to, std::int64_t file_bytes)
      : from_(from), to_(to), file_bytes_(file_bytes) {}

  Salvaged run() {
    SQLite::Transaction transaction(to_);
    revisions();
    pictures();
    posted();
    flags();
    shop();
    missing();
    SQLite::Statement note(to_, "INSERT INTO about (key, value) VALUES ('salvaged', ?)");
    note.bind(1, fmt::format("{} lost, {} doubted", result_.lost.size(), result_.doubted.size()));
    note.exec();
    transaction.commit();
    return std::move(result_);
  }

 private:
  // Saved as it is only where its event says the same; where there is no event it is saved and doubted.
  bool fits(const char* kind, const std::string& subject, const std::string& digest, const std::string& what) {
    const std::string expected = event_digest(from_, kind, subject);
    if (expected == digest) return true;
    (expected.empty() ? result_.doubted : result_.lost)
        .push_back(
            fmt::format("{}: {}", what, expected.empty() ? "its event cannot be read" : "does not match its event"));
    return expected.empty();
  }

  void revisions() {
    for_each_row(
        from_,
        "SELECT r.job, r.revision, r.changed, r.save_id, r.label, r.title, r.client, r.place, r.stage, r.created, "
        "r.summary, r.checksum, r.document FROM revisions r WHERE r.sequence = ?",
        last_row(from_, "revisions", file_bytes_), [&](SQLite::Statement& row) {
          const std::string job = row.getColumn(0).getString();
          const std::int64_t revision = row.getColumn(1).getInt64();
          const std::string what = fmt::format("revision {} of job {}", revision, job);
          const std::string document = row.getColumn(12).getString();
          if (checksum_of(job, revision, document) != row.getColumn(11).getString()) {
            result_.lost.push_back(what + ": its document does not match its checksum");
            return;
          }
          const std::string digest = digest_of_revision(row);
          const std::string subject = fmt::format("{} {}", job, revision);
          if (!fits("revision", subject, digest, what)) return;
          SQLite::Statement make(to_, "INSERT OR IGNORE INTO jobs (id) VALUES (?)");
          make.bind(1, job);
          if (make.exec() == 1) ++result_.jobs;
          SQLite::Statement insert(to_,
                                   "INSERT OR IGNORE INTO revisions (job, revision, changed, save_id, label, title, "
                                   "client, place, stage, created, summary, checksum, document) VALUES (?, ?, ?, ?, ?, "
                                   "?, ?, ?, ?, ?, ?, ?, ?)");
          for (int i = 0; i < 13; ++i) {
            if (i == 1) {
              insert.bind(2, revision);
            } else {
              insert.bind(i + 1, row.getColumn(i).getString());
            }
          }
          if (insert.exec() != 1) return;
          append_event(to_, "revision", subject, digest);
          found_.insert("revision " + subject);
          ++result_.revisions;
        });
  }

  void pictures() {
    for_each_row(from_, "SELECT hash, media_type, width_px, height_px, added, bytes FROM pictures WHERE rowid = ?",
                 last_row(from_, "pictures", file_bytes_), [&](SQLite::Statement& row) {
                   const std::string hash = row.getColumn(0).getString();
                   const SQLite::Column blob = row.getColumn(5);
                   const std::string bytes(static_cast<const char*>(blob.getBlob()),
                                           static_cast<std::size_t>(blob.getBytes()));
                   if (sha256_hex(bytes) != hash) {
                     result_.lost.push_back("picture " + hash + ": does not match its hash");
                     return;
                   }
                   const std::string digest = digest_of_picture(row);
                   if (!fits("picture", hash, digest, "picture " + hash)) return;
                   SQLite::Statement insert(to_,
                                            "INSERT OR IGNORE INTO pictures (hash, media_type, width_px, height_px, "
                                            "added, bytes) VALUES (?, ?, ?, ?, ?, ?)");
                   insert.bind(1, hash);
                   insert.bind(2, row.getColumn(1).getString());
                   insert.bind(3, row.getColumn(2).getInt64());
                   insert.bind(4, row.getColumn(3).getInt64());
                   insert.bind(5, row.getColumn(4).getString());
                   insert.bind(6, bytes.data(), static_cast<int>(bytes.size()));
                   if (insert.exec() != 1) return;
                   append_event(to_, "picture", hash, digest);
                   found_.insert("picture " + hash);
                   ++result_.pictures;
                 });
  }

  void posted() {
    for_each_row(from_, "SELECT posted_hash, hash FROM posted_pictures WHERE rowid = ?",
                 last_row(from_, "posted_pictures", file_bytes_), [&](SQLite::Statement& row) {
                   const std::string posted = row.getColumn(0).getString();
                   const std::string hash = row.getColumn(1).getString();
                   const std::string digest = digest_of({hash});
                   if (found_.count("picture " + hash) == 0) return;
                   if (!fits("posted", posted, digest, "the hash of posted picture " + hash)) return;
                   SQLite::Statement insert(to_,
                                            "INSERT OR IGNORE INTO posted_pictures (posted_hash, hash) VALUES (?, ?)");
                   insert.bind(1, posted);
                   insert.bind(2, hash);
                   if (insert.exec() == 1) append_event(to_, "posted", posted, digest);
                 });
  }

  // From the events, which say it last; the job's own row may be lost.
  void flags() {
    SQLite::Statement jobs(to_, "SELECT id FROM jobs");
    while (jobs.executeStep()) {
      const std::string id = jobs.getColumn(0).getString();
      if (event_digest(from_, "archived", id) != digest_of_flag(true)) continue;
      SQLite::Statement update(to_, "UPDATE jobs SET archived = 1 WHERE id = ?");
      update.bind(1, id);
      update.exec();
      append_event(to_, "archived", id, digest_of_flag(true));
    }
  }

  void shop() {
    for_each_row(from_, "SELECT revision, changed, save_id, checksum, document FROM shop_catalogues WHERE revision = ?",
                 last_row(from_, "shop_catalogues", file_bytes_), [&](SQLite::Statement& row) {
                   const std::int64_t revision = row.getColumn(0).getInt64();
                   const std::string subject = std::to_string(revision);
                   const std::string document = row.getColumn(4).getString();
                   const std::string what = "revision " + subject + " of the shop's catalogue";
                   if (checksum_of("shop", revision, document) != row.getColumn(3).getString()) {
                     result_.lost.push_back(what + ": does not match its checksum");
                     return;
                   }
                   const std::string digest = digest_of_shop(row);
                   if (!fits("shop", subject, digest, what)) return;
                   SQLite::Statement insert(to_,
                                            "INSERT OR IGNORE INTO shop_catalogues (revision, changed, save_id, "
                                            "checksum, document) VALUES (?, ?, ?, ?, ?)");
                   insert.bind(1, revision);
                   for (int i = 1; i < 5; ++i) insert.bind(i + 1, row.getColumn(i).getString());
                   if (insert.exec() != 1) return;
                   append_event(to_, "shop", subject, digest);
                   found_.insert("shop " + subject);
                   ++result_.shop_catalogues;
                 });
  }

  // What has an event and was not found.
  void missing() {
    std::int64_t events = 0;
    const std::int64_t last = last_row(from_, "events", file_bytes_);
    for_each_row(from_, "SELECT kind, subject FROM events WHERE sequence = ?", last, [&](SQLite::Statement& row) {
      ++events;
      const std::string kind = row.getColumn(0).getString();
      const std::string subject = row.getColumn(1).getString();
      if (kind != "revision" && kind != "picture" && kind != "shop") return;
      if (found_.count(kind + " " + subject) != 0) return;
      result_.lost.push_back(fmt::format("{} {}: stored once, not to be read any more", kind, subject));
    });
    const std::int64_t highest = number_or(from_, "SELECT max(sequence) FROM events", -1);
    if (events != highest) {
      result_.doubted.push_back("part of the list of events cannot be read: more may be lost than is named here");
    }
  }

  SQLite::Database& from_;
  SQLite::Database& to_;
  std::int64_t file_bytes_;
  Salvaged result_;
  std::set<std::string> found_;
};

Result<Salvaged> salvage(const std::string& damaged, const std::string& output, const Environment& environment) {
  std::error_code fault;
  if (!fs::is_regular_file(damaged, fault)) {
    return Error{ErrorCode::not_found, fmt::format("{}: there is no such file.", damaged)};
  }
  if (fs::exists(output, fault)) {
    return Error{ErrorCode::conflict, fmt::format("{}: exists already. Choose another name.", output)};
  }
  // Under another name until it is whole: who opens what was cut short would take it for all there was. What a salvage
  // left that was cut short goes first.
  const std::string part = output + ".salvaging";
  const std::string copy = output + ".salvaging-copy";
  const std::string pattern = output + ".salvaging-pattern";
  const auto clear = [&] {
    for (const std::string& path : {part, copy, pattern}) remove_workspace(path);
  };
  const auto give_up = [&](Error error) -> Result<Salvaged> {
    clear();
    return Result<Salvaged>(std::move(error));
  };
  const auto cannot_be_written = [&] {
    return give_up({ErrorCode::no_room, fmt::format("{}: cannot be written. Check the folder and its room.", output)});
  };
  clear();
  std::vector<std::string> doubted;
  const std::string log = read_bytes(damaged + "-wal");
  if (!write_bytes(copy, read_bytes(damaged)) || (!log.empty() && !write_bytes(copy + "-wal", log))) {
    return cannot_be_written();
  }
  if (is_log_damaged(log)) {
    doubted.push_back("the log beside the file is damaged: what was saved last may be missing and is not named here");
  }
  std::unique_ptr<SQLite::Database> from = open_copy(copy);
  if (!from && mend_first_page(copy, pattern, environment)) from = open_copy(copy);
  if (const auto before = head_without_log(copy); from && before && !fits_log(*from, *before)) {
    from.reset();
    remove_workspace(copy);
    if (!write_bytes(copy, read_bytes(damaged))) return cannot_be_written();
    doubted.push_back("the log beside the file belongs to another file or to an earlier time: it was left out");
    from = open_copy(copy);
  }
  if (!from) {
    return give_up({ErrorCode::invalid,
                    fmt::format("{}: nothing of it can be read as a workspace. Restore the last backup.", damaged)});
  }
  Environment keeping = environment;
  if (const std::string id = known_id(*from); !id.empty()) keeping.random_id = [id] { return id; };
  {
    const auto made = Workspace::open(part, keeping);
    if (!made) return give_up(made.error());
  }
  Result<std::unique_ptr<SQLite::Database>> to = open_database(part);
  if (!to) return give_up(to.error());
  try {
    Salvaged result = Salvager(*from, *to.value(), static_cast<std::int64_t>(fs::file_size(copy, fault))).run();
    to.value().reset();
    from.reset();
    result.doubted.insert(result.doubted.begin(), doubted.begin(), doubted.end());
    if (result.revisions + result.pictures + result.shop_catalogues == 0) {
      return give_up({ErrorCode::invalid,
                      fmt::format("{}: nothing of what it held can be read. Restore the last backup.", damaged)});
    }
    if (!put_in_place(part, output)) return cannot_be_written();
    clear();
    return result;
  } catch (const SQLite::Exception& failure) {
    to.value().reset();
    from.reset();
    return give_up(error_of(failure));
  }
}

}  // namespace duskwire::store
