// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <filesystem>

#include "store/files.hpp"
#include "store/rescue.hpp"

namespace duskwire::store {

namespace fs = std::filesystem;

Result<Contents> checked_copy(const std::string& path, Environment environment) {
  const auto opened = Workspace::open(path, std::move(environment));
  if (!opened) return opened.error();
  const auto wrong = opened.value()->verify();
  if (!wrong) return wrong.error();
  if (!wrong.value().empty()) {
    return Error{
        ErrorCode::invalid,
        fmt::format(
            "The backup is damaged ({} findings, the first: {}). Take an earlier one, or run duskwire salvage on it.",
            wrong.value().size(), wrong.value().front())};
  }
  return opened.value()->contents();
}

Result<Contents> restore(const std::string& backup, const std::string& target, Environment environment) {
  std::error_code fault;
  if (!fs::is_regular_file(backup, fault) || fs::file_size(backup, fault) == 0) {
    return Error{ErrorCode::not_found,
                 fmt::format("{}: there is no backup of that name, or it is empty because it was cut short.", backup)};
  }
  if (fs::exists(target, fault)) {
    return Error{ErrorCode::conflict,
                 fmt::format("{}: exists already. Restore to a new name, so that nothing is lost.", target)};
  }
  const auto cannot_be_written = [&] {
    return Error{ErrorCode::unavailable, fmt::format("{}: cannot be written. Check the folder and its room.", target)};
  };
  // Under another name until it is whole and checked: who opens what a restore left that was cut short would take an
  // empty file for a new workspace. What such a one left goes first.
  const std::string part = target + ".restoring";
  remove_workspace(part);
  // With its log, where the backup is a copy of a workspace that was in use.
  for (const char* ending : {"", "-wal"}) {
    if (!fs::exists(backup + ending, fault)) continue;
    // Made for its owner alone before anything is in it.
    if (make_private(part + ending) &&
        fs::copy_file(backup + ending, part + ending, fs::copy_options::overwrite_existing, fault) &&
        sync_file(part + ending)) {
      continue;
    }
    remove_workspace(part);
    return cannot_be_written();
  }
  Result<Contents> result = checked_copy(part, std::move(environment));
  if (result && !put_in_place(part, target)) result = cannot_be_written();
  remove_workspace(part);
  return result;
}

}  // namespace duskwire::store
