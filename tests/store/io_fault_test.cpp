// SPDX-License-Identifier: Apache-2.0
// The disk fails at its n-th call of a kind, once or from then on. Each command then gives one clear message or its
// answer; nothing is half stored; once the disk works again the same workspace goes on without a restart; and what was
// answered survives a power cut after it all, with a sync that failed having thrown away what it should have written.
#include <gtest/gtest.h>

#include <algorithm>
#include <cstdio>

#include "store/disk_vfs.hpp"
#include "store/script.hpp"
#include "store/sizes.hpp"
#include "store/temporary.hpp"

namespace duskwire::store {
namespace {

using testing::Cut;
using testing::Disk;
using testing::DiskCall;
using testing::DiskFault;
using testing::DiskImage;
using testing::DiskVfs;
using testing::EarlyCheckpoints;
using testing::Session;
using testing::sized;

bool is_clear(const Error& error) {
  const bool told = error.code == ErrorCode::unavailable || error.code == ErrorCode::no_room;
  return told && error.message.size() > 30 && error.message.back() == '.' &&
         error.message.find("SELECT") == std::string::npos && error.message.find("/tmp") == std::string::npos;
}

// One run of the script under one fault: what went wrong, or nothing.
std::string fault_in_run(const DiskFault& fault, const std::string& path, std::int64_t& hits) {
  const std::vector<std::string>& contents = testing::contents_of_script();
  DiskVfs vfs;
  vfs.fault = fault;
  Session session{path, nullptr};
  for (std::size_t i = 0; i < testing::script().size(); ++i) {
    const testing::Command& command = testing::script()[i];
    std::optional<Error> error = session.workspace || i == 0 ? command.run(session) : testing::open_session(session);
    if (error) {
      if (!is_clear(*error)) return command.name + " says: " + error->message;
      // For ever after: it goes on failing, or reading still works, but it never crashes or answers wrongly.
      if (fault.ever_after) {
        if (!session.workspace) static_cast<void>(testing::open_session(session));
        if (session.workspace) {
          if (const auto again = command.run(session); again && !is_clear(*again)) return again->message;
        }
        vfs.fault.at = -1;
      }
      if (const auto open = testing::open_session(session)) return "does not open again: " + open->message;
      const Result<std::string> content = testing::content_of(*session.workspace);
      if (!content) return command.name + " leaves it unreadable: " + content.error().message;
      if (content.value() != contents[i] && content.value() != contents[i + 1]) {
        return command.name + " left something half done";
      }
      error = command.run(session);
      if (error) return command.name + " fails again: " + error->message;
    }
    if (!session.workspace) {
      if (const auto open = testing::open_session(session)) return "does not open: " + open->message;
    }
  }
  hits = vfs.faults_hit;
  std::mt19937 dice(3);
  const DiskImage left = vfs.disk.cut(Cut::all_lost, dice);
  session.workspace.reset();
  vfs.fault.at = -1;
  vfs.disk = Disk(left);
  if (const auto open = testing::open_session(session)) return "after a cut it does not open: " + open->message;
  const Result<std::string> content = testing::content_of(*session.workspace);
  if (!content) return "after a cut: " + content.error().message;
  return content.value() == contents.back() ? "" : "a power cut after it all loses what was answered";
}

struct Kind {
  const char* name;
  DiskCall call;
  int code;
};

constexpr Kind kinds[] = {
    {"read", DiskCall::read, SQLITE_IOERR},         {"write", DiskCall::write, SQLITE_IOERR},
    {"disk full", DiskCall::write, SQLITE_FULL},    {"sync", DiskCall::sync, SQLITE_IOERR},
    {"truncate", DiskCall::truncate, SQLITE_IOERR}, {"lock", DiskCall::lock, SQLITE_IOERR},
    {"size", DiskCall::size, SQLITE_IOERR},         {"remove", DiskCall::remove, SQLITE_IOERR},
    {"access", DiskCall::access, SQLITE_IOERR},     {"open", DiskCall::open, SQLITE_CANTOPEN},
};

TEST(IoFault, GivesOneMessageAndHalfStoresNothing) {
  const testing::Folder folder;
  const std::string path = folder.file("w");
  const EarlyCheckpoints early;
  static_cast<void>(testing::contents_of_script());
  std::int64_t calls[testing::disk_call_kinds] = {};
  {
    DiskVfs vfs;
    Session session{path, nullptr};
    for (const testing::Command& command : testing::script()) ASSERT_FALSE(command.run(session).has_value());
    session.workspace.reset();
    std::copy(std::begin(vfs.calls), std::end(vfs.calls), std::begin(calls));
  }
  std::size_t runs = 0;
  int told = 0;
  for (const Kind& kind : kinds) {
    const std::int64_t count = calls[static_cast<int>(kind.call)];
    // The quick size tries some twelve places of each kind; a step that shares no factor with the script's rhythm.
    const std::int64_t step = sized<std::int64_t>(std::max<std::int64_t>(1, count / 12) | 1, 1, 1);
    for (std::int64_t at = 0; at < count; at += step) {
      for (const bool ever_after : {false, true}) {
        std::int64_t hits = 0;
        ++runs;
        const std::string fault = fault_in_run({kind.call, at, ever_after, kind.code}, path, hits);
        if (!fault.empty() && ++told <= 8) {
          ADD_FAILURE() << kind.name << " fails at call " << at << (ever_after ? " and after: " : ": ") << fault;
        }
      }
    }
  }
  std::printf("%zu runs of the script, each with one fault\n", runs);
  EXPECT_GT(runs, 50u);
}

// The call at which the store is proved not to go on with what is in memory.
TEST(IoFault, AfterAFailedSyncTheFileIsReadAnew) {
  const testing::Folder folder;
  DiskVfs vfs;
  Session session{folder.file("w"), nullptr};
  ASSERT_FALSE(testing::open_session(session).has_value());
  testing::saved_revision(session.workspace->save(testing::save_of("garden", 0, "{}")));
  vfs.fault = {DiskCall::sync, vfs.calls[static_cast<int>(DiskCall::sync)], false, SQLITE_IOERR};
  const SaveOutcome failed = session.workspace->save(testing::save_of("garden", 1, "{\"n\":2}"));
  ASSERT_TRUE(std::holds_alternative<Error>(failed));
  const std::int64_t opened_before = vfs.calls[static_cast<int>(DiskCall::open)];
  EXPECT_EQ(testing::saved_revision(session.workspace->save(testing::save_of("garden", 1, "{\"n\":2}"))), 2);
  EXPECT_GT(vfs.calls[static_cast<int>(DiskCall::open)], opened_before);
}

}  // namespace
}  // namespace duskwire::store
