// SPDX-License-Identifier: Apache-2.0
// Pictures: stored once under the hash of their bytes.
#include <fmt/format.h>

#include "store/events.hpp"
#include "store/workspace_state.hpp"

namespace duskwire::store {

Result<bool> Workspace::add_picture(const Picture& picture, const std::string& posted_hash) {
  if (sha256_hex(picture.bytes) != picture.hash) {
    return Error{ErrorCode::invalid,
                 "The picture does not match its hash: it was cut short or changed. Send it again."};
  }
  return state_->run<Result<bool>>([&](SQLite::Database& db) -> Result<bool> {
    SQLite::Transaction transaction(db, SQLite::TransactionBehavior::IMMEDIATE);
    SQLite::Statement insert(db,
                             "INSERT OR IGNORE INTO pictures (hash, media_type, width_px, height_px, added, bytes) "
                             "VALUES (?, ?, ?, ?, ?, ?)");
    insert.bind(1, picture.hash);
    insert.bind(2, picture.media_type);
    insert.bind(3, picture.width_px);
    insert.bind(4, picture.height_px);
    const std::string now = state_->environment.now_utc();
    insert.bind(5, now);
    insert.bind(6, picture.bytes.data(), static_cast<int>(picture.bytes.size()));
    const bool added = insert.exec() == 1;
    if (added) {
      append_event(db, "picture", picture.hash,
                   digest_of({picture.hash, picture.media_type, std::to_string(picture.width_px),
                              std::to_string(picture.height_px), now}));
    }
    SQLite::Statement posted(db, "INSERT OR IGNORE INTO posted_pictures (posted_hash, hash) VALUES (?, ?)");
    posted.bind(1, posted_hash);
    posted.bind(2, picture.hash);
    if (posted.exec() == 1) append_event(db, "posted", posted_hash, digest_of({picture.hash}));
    transaction.commit();
    return added;
  });
}

Result<Picture> Workspace::picture(const std::string& hash) {
  return state_->run<Result<Picture>>([&](SQLite::Database& db) -> Result<Picture> {
    SQLite::Statement query(
        db,
        "SELECT hash, media_type, width_px, height_px, added, bytes, (SELECT digest FROM events WHERE kind = 'picture' "
        "AND subject = hash), (SELECT digest FROM events WHERE kind = 'posted' AND subject = ?1) FROM pictures WHERE "
        "hash = ?1 OR hash = "
        "(SELECT hash FROM posted_pictures WHERE posted_hash = ?1) LIMIT 1");
    query.bind(1, hash);
    if (!query.executeStep()) return Error{ErrorCode::not_found, "There is no such picture in this workspace."};
    Picture picture;
    picture.hash = query.getColumn(0).getString();
    picture.media_type = query.getColumn(1).getString();
    picture.width_px = query.getColumn(2).getInt64();
    picture.height_px = query.getColumn(3).getInt64();
    const SQLite::Column bytes = query.getColumn(5);
    picture.bytes.assign(static_cast<const char*>(bytes.getBlob()), static_cast<std::size_t>(bytes.getBytes()));
    const bool as_asked = hash == picture.hash || digest_of({picture.hash}) == query.getColumn(7).getString();
    if (!as_asked || sha256_hex(picture.bytes) != picture.hash ||
        digest_of_picture(query) != query.getColumn(6).getString()) {
      return Error{
          ErrorCode::invalid,
          "A stored picture does not match its checksum: the file is damaged there. Restore the last backup, or "
          "add the picture again to a new workspace."};
    }
    return picture;
  });
}

}  // namespace duskwire::store
