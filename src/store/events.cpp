// SPDX-License-Identifier: Apache-2.0
#include "store/events.hpp"

#include <fmt/format.h>

#include "store/workspace.hpp"

namespace duskwire::store {
namespace {

std::string text_at(SQLite::Statement& row, int column) { return row.getColumn(column).getString(); }

std::string link_after(const std::string& chain, std::int64_t sequence, std::string_view kind, std::string_view subject,
                       std::string_view digest) {
  return digest_of({chain, std::to_string(sequence), kind, subject, digest});
}

template <class Digest>
void append_for_each(SQLite::Database& database, const char* kind, const std::string& query, Digest&& digest) {
  SQLite::Statement rows(database, query);
  while (rows.executeStep()) {
    // The subject stands last, so that the columns before it are those that the digest takes.
    append_event(database, kind, text_at(rows, rows.getColumnCount() - 1), digest(rows));
  }
}

void judge_links(SQLite::Database& database, std::vector<std::string>& wrong) {
  SQLite::Statement rows(database, "SELECT sequence, kind, subject, digest, chain FROM events ORDER BY sequence");
  std::string chain;
  std::int64_t expected = 0;
  while (rows.executeStep()) {
    const std::int64_t sequence = rows.getColumn(0).getInt64();
    if (sequence != ++expected) wrong.push_back(fmt::format("event {} is missing", expected));
    if (link_after(chain, sequence, text_at(rows, 1), text_at(rows, 2), text_at(rows, 3)) != text_at(rows, 4)) {
      wrong.push_back(fmt::format("event {} does not follow from the one before", sequence));
    }
    expected = sequence;
    chain = text_at(rows, 4);
  }
}

void judge_counts(SQLite::Database& database, const char* kind, const char* table, const char* what,
                  std::vector<std::string>& wrong) {
  const std::int64_t rows = database.execAndGet(fmt::format("SELECT count(*) FROM {}", table)).getInt64();
  const std::int64_t events =
      database.execAndGet(fmt::format("SELECT count(*) FROM events WHERE kind = '{}'", kind)).getInt64();
  if (rows != events) wrong.push_back(fmt::format("{} {} are there, {} were stored", rows, what, events));
}

template <class Digest>
void judge_rows(SQLite::Database& database, const std::string& query, const char* what, Digest&& digest,
                std::vector<std::string>& wrong) {
  SQLite::Statement rows(database, query);
  while (rows.executeStep()) {
    const int last = rows.getColumnCount() - 1;
    if (digest(rows) != text_at(rows, last)) {
      wrong.push_back(fmt::format("what is kept of {} {} does not match its event", what, text_at(rows, last - 1)));
    }
  }
}

}  // namespace

std::string digest_of(std::initializer_list<std::string_view> fields) {
  std::string text;
  for (const std::string_view field : fields) {
    text.append(std::to_string(field.size())).append(":").append(field);
  }
  return sha256_hex(text);
}

EventHead event_head(SQLite::Database& database) {
  SQLite::Statement query(database, "SELECT sequence, chain FROM events ORDER BY sequence DESC LIMIT 1");
  if (!query.executeStep()) return {};
  return {query.getColumn(0).getInt64(), query.getColumn(1).getString()};
}

bool is_linked(SQLite::Database& database, const EventHead& head) {
  SQLite::Statement query(
      database,
      "SELECT e.kind, e.subject, e.digest, coalesce(b.chain, '') FROM events e LEFT JOIN events b ON "
      "b.sequence = e.sequence - 1 WHERE e.sequence = ?");
  query.bind(1, head.sequence);
  if (!query.executeStep()) return false;
  return head.chain ==
         link_after(text_at(query, 3), head.sequence, text_at(query, 0), text_at(query, 1), text_at(query, 2));
}

void append_event(SQLite::Database& database, const char* kind, const std::string& subject, const std::string& digest) {
  const EventHead head = event_head(database);
  SQLite::Statement insert(database,
                           "INSERT INTO events (sequence, kind, subject, digest, chain) VALUES (?, ?, ?, ?, ?)");
  insert.bind(1, head.sequence + 1);
  insert.bind(2, kind);
  insert.bind(3, subject);
  insert.bind(4, digest);
  insert.bind(5, link_after(head.chain, head.sequence + 1, kind, subject, digest));
  insert.exec();
}

void append_events_of_all(SQLite::Database& database) {
  append_for_each(database, "workspace", "SELECT value, key FROM about WHERE key = 'workspace_id'",
                  [](SQLite::Statement& row) { return digest_of({text_at(row, 0)}); });
  append_for_each(
      database, "revision",
      fmt::format("SELECT {}, r.job || ' ' || r.revision FROM revisions r ORDER BY sequence", sealed_revision_columns),
      digest_of_revision);
  append_for_each(database, "picture",
                  "SELECT hash, media_type, width_px, height_px, added, hash FROM pictures ORDER BY rowid",
                  digest_of_picture);
  append_for_each(database, "posted", "SELECT hash, posted_hash FROM posted_pictures ORDER BY rowid",
                  [](SQLite::Statement& row) { return digest_of({text_at(row, 0)}); });
  append_for_each(database, "archived", "SELECT id FROM jobs WHERE archived <> 0 ORDER BY rowid",
                  [](SQLite::Statement&) { return digest_of_flag(true); });
  append_for_each(database, "shop",
                  "SELECT revision, changed, save_id, checksum, revision FROM shop_catalogues ORDER BY revision",
                  digest_of_shop);
}

std::string digest_of_revision(SQLite::Statement& row) {
  std::string facts[sealed_revision_count - 1];
  for (int i = 0; i < sealed_revision_count - 1; ++i) facts[i] = text_at(row, i);
  return digest_of({facts[0], facts[1], facts[2], facts[3], facts[4], facts[5], facts[6], facts[7], facts[8], facts[9],
                    facts[10], facts[11]});
}

bool is_sealed_revision(SQLite::Statement& row) {
  return digest_of_revision(row) == text_at(row, sealed_revision_count - 1);
}

std::string digest_of_picture(SQLite::Statement& row) {
  return digest_of({text_at(row, 0), text_at(row, 1), text_at(row, 2), text_at(row, 3), text_at(row, 4)});
}

std::string digest_of_shop(SQLite::Statement& row) {
  return digest_of({text_at(row, 0), text_at(row, 1), text_at(row, 2), text_at(row, 3)});
}

std::string digest_of_flag(bool archived) { return digest_of({archived ? "archived" : "at work"}); }

bool is_sealed_flag(SQLite::Database& database, const std::string& job, bool archived) {
  SQLite::Statement query(
      database, "SELECT digest FROM events WHERE kind = 'archived' AND subject = ? ORDER BY sequence DESC LIMIT 1");
  query.bind(1, job);
  if (!query.executeStep()) return !archived;
  return text_at(query, 0) == digest_of_flag(archived);
}

std::vector<std::string> unsealed(SQLite::Database& database) {
  std::vector<std::string> wrong;
  judge_links(database, wrong);
  judge_counts(database, "revision", "revisions", "revisions", wrong);
  judge_counts(database, "picture", "pictures", "pictures", wrong);
  judge_counts(database, "posted", "posted_pictures", "hashes of posted pictures", wrong);
  judge_counts(database, "shop", "shop_catalogues", "revisions of the shop's catalogue", wrong);
  SQLite::Statement revisions(database, fmt::format("SELECT {} FROM revisions r", sealed_revision_columns));
  while (revisions.executeStep()) {
    if (!is_sealed_revision(revisions)) {
      wrong.push_back(fmt::format("the facts of revision {} of job {} do not match their event", text_at(revisions, 1),
                                  text_at(revisions, 0)));
    }
  }
  judge_rows(database,
             "SELECT hash, media_type, width_px, height_px, added, hash, (SELECT digest FROM events WHERE kind = "
             "'picture' AND subject = hash) FROM pictures",
             "picture", digest_of_picture, wrong);
  judge_rows(
      database,
      "SELECT hash, posted_hash, (SELECT digest FROM events WHERE kind = 'posted' AND subject = posted_hash) "
      "FROM posted_pictures",
      "posted picture", [](SQLite::Statement& row) { return digest_of({text_at(row, 0)}); }, wrong);
  judge_rows(database,
             "SELECT revision, changed, save_id, checksum, revision, (SELECT digest FROM events WHERE kind = 'shop' "
             "AND subject = CAST(revision AS TEXT)) FROM shop_catalogues",
             "shop catalogue", digest_of_shop, wrong);
  judge_rows(
      database,
      "SELECT value, key, (SELECT digest FROM events WHERE kind = 'workspace' AND subject = key) FROM about "
      "WHERE key = 'workspace_id'",
      "the workspace's", [](SQLite::Statement& row) { return digest_of({text_at(row, 0)}); }, wrong);
  SQLite::Statement flags(database, "SELECT id, archived FROM jobs");
  while (flags.executeStep()) {
    if (!is_sealed_flag(database, text_at(flags, 0), flags.getColumn(1).getInt() != 0)) {
      wrong.push_back("whether job " + text_at(flags, 0) + " is archived does not match its event");
    }
  }
  return wrong;
}

}  // namespace duskwire::store
