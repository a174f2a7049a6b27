// SPDX-License-Identifier: Apache-2.0
// What a Workspace holds. Internal to the room.
#pragma once

#include <SQLiteCpp/SQLiteCpp.h>

#include <memory>
#include <mutex>
#include <string>
#include <string_view>
#include <utility>

#include "store/database.hpp"
#include "store/workspace.hpp"

namespace duskwire::store {

// Of a stored document together with its place, so that a document that turns up in another place is seen.
[[nodiscard]] std::string checksum_of(std::string_view owner, std::int64_t revision, std::string_view document);

struct Workspace::State {
  Environment environment;
  std::mutex one_at_a_time;
  std::unique_ptr<SQLite::Database> database;
  std::string id;

  // Runs `work(database)` alone, turning a failure of SQLite into an Error.
  template <class Answer, class Work>
  Answer run(Work&& work) {
    const std::lock_guard<std::mutex> lock(one_at_a_time);
    try {
      return work(*database);
    } catch (const SQLite::Exception& failure) {
      return error_of(failure);
    }
  }
};

}  // namespace duskwire::store
