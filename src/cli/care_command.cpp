// SPDX-License-Identifier: Apache-2.0
// Care of workspace files: backup, restore, salvage. Each writes a new file and leaves the one that it reads.
#include <fmt/format.h>

#include <filesystem>
#include <optional>

#include "cli/commands.hpp"
#include "server/backup_door.hpp"
#include "server/secrets.hpp"
#include "store/rescue.hpp"

namespace duskwire::cli {
namespace {

// Nothing that these commands make is dated.
store::Environment environment() {
  return {[] { return std::string(); }, server::random_secret};
}

std::string counted(std::int64_t number, const char* one, const char* many) {
  return fmt::format("{} {}", number, number == 1 ? one : many);
}

std::string page_of(const store::Contents& contents, const std::string& where) {
  return fmt::format("{} holds {}, {}, {}.\nFingerprint {}\n", where, counted(contents.jobs, "job", "jobs"),
                     counted(contents.revisions, "revision", "revisions"),
                     counted(contents.pictures, "picture", "pictures"), contents.fingerprint);
}

Outcome refused(const char* command, const std::string& file, const Error& error) {
  const bool names_it = error.message.rfind(file + ":", 0) == 0;
  return {exit_bad_input, "", fmt::format("duskwire {}: {}{}\n", command, names_it ? "" : file + ": ", error.message)};
}

Outcome back_up(const CareRequest& request) {
  std::error_code fault;
  // Opening would make it.
  if (!std::filesystem::is_regular_file(request.file, fault)) {
    return refused("backup", request.file, {ErrorCode::not_found, "There is no workspace of that name."});
  }
  std::optional<Result<bool>> made = server::back_up_by_server(request.file, request.output);
  if (!made) {
    const auto workspace = store::Workspace::open(request.file, environment());
    if (!workspace) return refused("backup", request.file, workspace.error());
    made = workspace.value()->back_up(request.output);
  }
  if (!*made) return refused("backup", request.output, made->error());
  const auto contents = store::checked_copy(request.output, environment());
  if (!contents) return refused("backup", request.output, contents.error());
  return {exit_sound, page_of(contents.value(), request.output), ""};
}

Outcome restore(const CareRequest& request) {
  const auto contents = store::restore(request.file, request.output, environment());
  if (!contents) return refused("restore", request.file, contents.error());
  return {exit_sound, page_of(contents.value(), request.output), ""};
}

Outcome salvage(const CareRequest& request) {
  const auto salvaged = store::salvage(request.file, request.output, environment());
  if (!salvaged) return refused("salvage", request.file, salvaged.error());
  const store::Salvaged& found = salvaged.value();
  std::string text = fmt::format("Saved in {}: {}, {}, {}, {} of the shop's catalogue.\n", request.output,
                                 counted(found.jobs, "job", "jobs"), counted(found.revisions, "revision", "revisions"),
                                 counted(found.pictures, "picture", "pictures"),
                                 counted(found.shop_catalogues, "revision", "revisions"));
  const auto list = [&](const char* head, const std::vector<std::string>& lines) {
    if (lines.empty()) return;
    text += head;
    for (const std::string& line : lines) text += "  " + line + "\n";
  };
  list("Not saved:\n", found.lost);
  list("Saved, but not all of it could be checked:\n", found.doubted);
  const bool whole = found.lost.empty() && found.doubted.empty();
  if (whole) text += "Nothing was lost.\n";
  return {whole ? exit_sound : exit_findings, text, ""};
}

}  // namespace

Outcome care_command(const CareRequest& request) {
  switch (request.act) {
    case CareRequest::Act::back_up:
      return back_up(request);
    case CareRequest::Act::restore:
      return restore(request);
    case CareRequest::Act::salvage:
      return salvage(request);
  }
  return {};
}

}  // namespace duskwire::cli
