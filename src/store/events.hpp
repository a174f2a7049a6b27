// SPDX-License-Identifier: Apache-2.0
// The chain of events: one row for everything that was ever stored, with the digest of what it stored and of the row
// before. A row that was changed, lost or put in by another hand does not fit its event; two workspaces with the same
// last link hold the same. Internal to the room.
#pragma once

#include <SQLiteCpp/SQLiteCpp.h>

#include <cstdint>
#include <initializer_list>
#include <string>
#include <string_view>
#include <vector>

namespace duskwire::store {

// SHA-256 over the fields, each after its length, so that none runs into the next.
[[nodiscard]] std::string digest_of(std::initializer_list<std::string_view> fields);

struct EventHead {
  std::int64_t sequence = 0;  // 0: nothing was stored yet
  std::string chain;
};

[[nodiscard]] EventHead event_head(SQLite::Database& database);
// Whether that event follows from the one before it: of a page that was half written it does not.
[[nodiscard]] bool is_linked(SQLite::Database& database, const EventHead& head);

// Inside the transaction that stores the thing itself. Kinds: workspace, revision, archived, picture, posted, shop.
void append_event(SQLite::Database& database, const char* kind, const std::string& subject, const std::string& digest);

// What was stored before there were events gets them now, in the order in which it was stored.
void append_events_of_all(SQLite::Database& database);

// The columns that sealed_revision() judges, first in a query of `revisions r`.
inline constexpr const char* sealed_revision_columns =
    "r.job, r.revision, r.changed, r.save_id, r.label, r.title, r.client, r.place, r.stage, r.created, r.summary, "
    "r.checksum, (SELECT digest FROM events WHERE kind = 'revision' AND subject = r.job || ' ' || r.revision)";
inline constexpr int sealed_revision_count = 13;
[[nodiscard]] std::string digest_of_revision(SQLite::Statement& row);
[[nodiscard]] bool is_sealed_revision(SQLite::Statement& row);

[[nodiscard]] std::string digest_of_picture(SQLite::Statement& row);  // hash, media_type, width_px, height_px, added
[[nodiscard]] std::string digest_of_shop(SQLite::Statement& row);     // revision, changed, save_id, checksum

[[nodiscard]] std::string digest_of_flag(bool archived);
// Whether a job's flag is what its last event says.
[[nodiscard]] bool is_sealed_flag(SQLite::Database& database, const std::string& job, bool archived);

// Everything that does not fit: links, rows without events, events without rows.
[[nodiscard]] std::vector<std::string> unsealed(SQLite::Database& database);

}  // namespace duskwire::store
