// SPDX-License-Identifier: Apache-2.0
// What a Workspace holds. Internal to the room.
#pragma once

#include <SQLiteCpp/SQLiteCpp.h>
#include <sqlite3.h>

#include <memory>
#include <mutex>
#include <new>
#include <string>
#include <string_view>
#include <utility>

#include "store/database.hpp"
#include "store/workspace.hpp"

namespace duskwire::store {

// Of a stored document together with its place, so that a document that turns up in another place is seen.
[[nodiscard]] std::string checksum_of(std::string_view owner, std::int64_t revision, std::string_view document);

// Whether what is there is not what the save was made from.
[[nodiscard]] inline bool is_other_base(const Conflict& head, const std::string& base_checksum) {
  return head.current_revision != head.base_revision ||
         (!base_checksum.empty() && base_checksum != head.current_checksum);
}

struct Workspace::State {
  Environment environment;
  std::mutex one_at_a_time;
  std::unique_ptr<SQLite::Database> database;  // none after the disk failed, until it can be opened again
  std::string path;
  std::string id;

  // Closes where it must, and where a transaction stayed open: its rollback needs memory too, and what comes next would
  // become a part of it.
  void close_if(bool must) {
    if (database && (must || sqlite3_get_autocommit(database->getHandle()) == 0)) database.reset();
  }

  // Runs `work(database)` alone, turning a failure of SQLite into an Error.
  template <class Answer, class Work>
  Answer run(Work&& work) {
    const std::lock_guard<std::mutex> lock(one_at_a_time);
    try {
      if (!database) {
        Result<std::unique_ptr<SQLite::Database>> again = open_database(path);
        if (!again) return again.error();
        database = std::move(again).value();
      }
      return work(*database);
    } catch (const SQLite::Exception& failure) {
      // After a failed sync the system may take for written what is not, and a second sync would say so too: what is
      // on the disk is read anew, and never is a commit tried again on what is in memory.
      close_if(failure.getErrorCode() == SQLITE_IOERR);
      return error_of(failure);
    } catch (const std::bad_alloc&) {
      close_if(false);
      return Error{ErrorCode::unavailable, "There is not enough memory for this. Nothing was stored."};
    }
  }
};

}  // namespace duskwire::store
