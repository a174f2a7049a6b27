// SPDX-License-Identifier: Apache-2.0
// Opens the database file with the settings that the store's promises rest on, and brings its tables up to date.
// Internal to the room.
#pragma once

#include <SQLiteCpp/SQLiteCpp.h>

#include <memory>
#include <optional>
#include <string>

#include "base/result.hpp"
#include "store/events.hpp"

namespace duskwire::store {

// Marks a workspace file in the database header ("dwkw").
inline constexpr int application_id = 0x64776b77;
inline constexpr int schema_version = 2;

// The settings, each against something seen to go wrong:
// - locking_mode=EXCLUSIVE: one connection, which alone checkpoints. SQLite 3.7.0 to 3.51.2 has a race between a
//   checkpoint and a commit of two connections that can damage the file (sqlite.org, "WAL-reset"); with one there is
//   none.
// - synchronous=FULL: an answered commit survives a power cut.
// - trusted_schema=OFF and the defensive switch: a foreign file cannot make its schema run anything.
// - quick_check before anything else is read, then whether indexes and tables agree, which it leaves out: a bit that is
//   flipped in an index serves another revision. Together they find what integrity_check finds, in a fraction of its
//   time.
// - a log that is damaged, foreign or stale is refused before it is taken in, and what is refused is not touched.
// - no mmap: a read that fails is then an error of SQLite, not a signal. Limits no higher than our own statements need.
[[nodiscard]] Result<std::unique_ptr<SQLite::Database>> open_database(const std::string& path);

// The last event in the file itself, as if there were no log. Nothing where that cannot be read or does not follow from
// the one before: a checkpoint that was cut short leaves pages half new, and the log makes them whole.
[[nodiscard]] std::optional<EventHead> head_without_log(const std::string& path);
// A log of another file, or one kept from earlier, fits SQLite's own checks. It does not lead on from the file's
// events.
[[nodiscard]] bool leads_on(SQLite::Database& database, const EventHead& before);

// What an SQLite failure means to a person. Never a query, never a path.
[[nodiscard]] Error error_of(const SQLite::Exception& failure);

}  // namespace duskwire::store
