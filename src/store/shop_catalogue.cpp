// SPDX-License-Identifier: Apache-2.0
// The shop's own catalogue: revisions like those of a job, of one document.
#include <optional>

#include "store/events.hpp"
#include "store/workspace_state.hpp"

namespace duskwire::store {

Result<ShopCatalogue> Workspace::shop_catalogue() {
  return state_->run<Result<ShopCatalogue>>([](SQLite::Database& db) -> Result<ShopCatalogue> {
    SQLite::Statement query(db,
                            "SELECT revision, changed, save_id, checksum, (SELECT digest FROM events WHERE kind = "
                            "'shop' AND subject = CAST(revision AS TEXT)), document FROM shop_catalogues ORDER BY "
                            "revision DESC LIMIT 1");
    if (!query.executeStep()) return ShopCatalogue{};
    ShopCatalogue shop{query.getColumn(0).getInt64(), query.getColumn(1).getString(), query.getColumn(5).getString(),
                       query.getColumn(3).getString()};
    if (checksum_of("shop", shop.revision, shop.document) != shop.checksum ||
        digest_of_shop(query) != query.getColumn(4).getString()) {
      return Error{ErrorCode::invalid,
                   "The stored shop catalogue does not match its checksum: the file is damaged there. Restore the last "
                   "backup."};
    }
    return shop;
  });
}

SaveOutcome Workspace::save_shop_catalogue(const ShopCatalogueSave& save) {
  return state_->run<SaveOutcome>([&](SQLite::Database& db) -> SaveOutcome {
    SQLite::Transaction transaction(db, SQLite::TransactionBehavior::IMMEDIATE);
    SQLite::Statement repeated(db, "SELECT revision, changed, checksum FROM shop_catalogues WHERE save_id = ?");
    repeated.bind(1, save.save_id);
    if (repeated.executeStep()) {
      return Saved{repeated.getColumn(0).getInt64(), repeated.getColumn(1).getString(),
                   repeated.getColumn(2).getString()};
    }
    Conflict head;
    head.base_revision = save.base_revision;
    SQLite::Statement query(db,
                            "SELECT revision, changed, save_id, checksum FROM shop_catalogues ORDER BY revision DESC "
                            "LIMIT 1");
    if (query.executeStep()) {
      head.current_revision = query.getColumn(0).getInt64();
      head.current_changed = query.getColumn(1).getString();
      head.current_save_id = query.getColumn(2).getString();
      head.current_checksum = query.getColumn(3).getString();
    }
    if (is_other_base(head, save.base_checksum)) return head;
    const std::int64_t next = save.base_revision + 1;
    Saved saved{next, state_->environment.now_utc(), checksum_of("shop", next, save.document)};
    SQLite::Statement insert(db,
                             "INSERT INTO shop_catalogues (revision, changed, save_id, document, checksum) VALUES "
                             "(?, ?, ?, ?, ?)");
    insert.bind(1, saved.revision);
    insert.bind(2, saved.changed);
    insert.bind(3, save.save_id);
    insert.bind(4, save.document);
    insert.bind(5, saved.checksum);
    insert.exec();
    const std::string revision = std::to_string(saved.revision);
    append_event(db, "shop", revision, digest_of({revision, saved.changed, save.save_id, saved.checksum}));
    // From here on the catalogue is stored: nothing may fail before it is answered.
    transaction.commit();
    return SaveOutcome(std::move(saved));
  });
}

}  // namespace duskwire::store
