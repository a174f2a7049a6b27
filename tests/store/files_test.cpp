// SPDX-License-Identifier: Apache-2.0
// What the system refuses: rights that are missing or taken away midway, files that cannot be synced, and what each
// answer of SQLite means to a person.
#include "store/files.hpp"

#include <gtest/gtest.h>
#include <sqlite3.h>
#include <sys/stat.h>
#include <unistd.h>

#include <functional>

#include "store/database.hpp"
#include "store/temporary.hpp"

namespace duskwire::store {
namespace {

using testing::Folder;
using testing::save_of;

TEST(ErrorOf, EachAnswerOfSqliteHasItsKindAndNamesNoQuery) {
  const std::pair<int, ErrorCode> kinds[] = {
      {SQLITE_BUSY, ErrorCode::unavailable},      {SQLITE_LOCKED, ErrorCode::unavailable},
      {SQLITE_FULL, ErrorCode::no_room},          {SQLITE_READONLY, ErrorCode::unavailable},
      {SQLITE_PERM, ErrorCode::unavailable},      {SQLITE_CANTOPEN, ErrorCode::unavailable},
      {SQLITE_NOTADB, ErrorCode::invalid},        {SQLITE_CORRUPT, ErrorCode::invalid},
      {SQLITE_NOMEM, ErrorCode::unavailable},     {SQLITE_IOERR, ErrorCode::unavailable},
      {SQLITE_CONSTRAINT, ErrorCode::unavailable}};
  for (const auto& [code, kind] : kinds) {
    const Error error = error_of(SQLite::Exception("near \"SELECT\"", code));
    EXPECT_EQ(error.code, kind) << code;
    EXPECT_EQ(error.message.find("SELECT"), std::string::npos) << code;
    EXPECT_EQ(error.message.back(), '.') << code;
  }
}

TEST(Files, WhatCannotBeSyncedOrWrittenIsToldSo) {
  const Folder folder;
  ASSERT_EQ(::mkfifo(folder.file("pipe").c_str(), 0600), 0);
  EXPECT_FALSE(sync_file(folder.file("pipe")));
  EXPECT_FALSE(sync_file(folder.file("none")));
  EXPECT_FALSE(write_bytes("/dev/full", "x"));
  EXPECT_FALSE(write_bytes("/dev/full", std::string(100'000, 'x')));
}

TEST(Files, PuttingInPlaceReplacesNothing) {
  const Folder folder;
  ASSERT_TRUE(write_bytes(folder.file("new"), "new") && write_bytes(folder.file("there"), "there"));
  EXPECT_FALSE(put_in_place(folder.file("new"), folder.file("there")));
  EXPECT_EQ(read_bytes(folder.file("there")), "there");
  EXPECT_FALSE(put_in_place(folder.file("none"), folder.file("other")));
  EXPECT_TRUE(put_in_place(folder.file("new"), folder.file("other")));
  EXPECT_EQ(read_bytes(folder.file("other")), "new");
}

// Runs it as somebody without root's rights, for whom rights count; the number of the first demand that was not met.
int first_unmet(const std::string& folder, const std::function<int()>& demands) {
  constexpr uid_t nobody = 65534;
  const bool is_root = ::geteuid() == 0;
  if (is_root && (::chown(folder.c_str(), nobody, nobody) != 0 || ::seteuid(nobody) != 0)) return -1;
  const int number = demands();
  return is_root && ::seteuid(0) != 0 ? -1 : number;
}

TEST(Files, AFolderThatCannotBeSyncedMakesNoWorkspace) {
  const Folder folder;
  const std::string path = folder.file(".");
  EXPECT_EQ(first_unmet(path,
                        [&] {
                          if (!write_bytes(folder.file("a"), "a")) return 1;
                          // May be written and gone through, but not read: what is made there cannot be made lasting.
                          if (::chmod(path.c_str(), 0300) != 0) return 2;
                          if (make_private(folder.file("new"))) return 3;
                          if (put_in_place(folder.file("a"), folder.file("b"))) return 4;
                          const auto opened = Workspace::open(folder.file("w"), testing::counting_environment());
                          if (opened || opened.error().code != ErrorCode::unavailable) return 5;
                          return ::chmod(path.c_str(), 0700);
                        }),
            0);
}

TEST(Files, RightsThatAreTakenAwayMidwayLoseNothing) {
  const Folder folder;
  const std::string path = folder.file(".");
  EXPECT_EQ(first_unmet(path,
                        [&] {
                          {
                            const auto open = Workspace::open(folder.file("w"), testing::counting_environment());
                            if (!open || !std::holds_alternative<Saved>(open.value()->save(save_of("garden", 0, "{}"))))
                              return 1;
                            if (::chmod(path.c_str(), 0500) != 0 || ::chmod(folder.file("w").c_str(), 0400) != 0)
                              return 2;
                            // What is open stays so: the save is answered and there, or refused.
                            const SaveOutcome outcome = open.value()->save(save_of("garden", 1, "{\"n\":2}"));
                            const std::int64_t saved = std::holds_alternative<Saved>(outcome) ? 2 : 1;
                            const auto job = open.value()->job("garden");
                            if (!job || job.value().revision != saved) return 3;
                            if (open.value()->back_up(folder.file("backup"))) return 4;
                          }
                          const auto refused = Workspace::open(folder.file("w"), testing::counting_environment());
                          if (refused || refused.error().code != ErrorCode::unavailable) return 5;
                          if (::chmod(path.c_str(), 0700) != 0 || ::chmod(folder.file("w").c_str(), 0600) != 0)
                            return 6;
                          const auto again = Workspace::open(folder.file("w"), testing::counting_environment());
                          if (!again || again.value()->job("garden").value().revision < 1) return 7;
                          return again.value()->verify().value().empty() ? 0 : 8;
                        }),
            0);
}

}  // namespace
}  // namespace duskwire::store
