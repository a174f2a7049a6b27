// SPDX-License-Identifier: Apache-2.0
#include "cli/workspace_file.hpp"

#include <fmt/format.h>

#include <chrono>
#include <ctime>
#include <filesystem>

#include "server/secrets.hpp"

namespace duskwire::cli {
namespace {

std::string now_utc() {
  const std::time_t now = std::chrono::system_clock::to_time_t(std::chrono::system_clock::now());
  std::tm parts{};
  ::gmtime_r(&now, &parts);
  return fmt::format("{:04}-{:02}-{:02}T{:02}:{:02}:{:02}Z", parts.tm_year + 1900, parts.tm_mon + 1, parts.tm_mday,
                     parts.tm_hour, parts.tm_min, parts.tm_sec);
}

}  // namespace

Result<std::unique_ptr<store::Workspace>> open_workspace(const std::string& path, bool may_make) {
  std::error_code fault;
  if (!may_make && !std::filesystem::exists(path, fault)) {
    return Error{ErrorCode::not_found, fmt::format("There is no workspace \"{}\".", path)};
  }
  auto opened = store::Workspace::open(path, {now_utc, server::random_secret});
  if (!opened) return Error{opened.error().code, fmt::format("{}: {}", path, opened.error().message)};
  return opened;
}

}  // namespace duskwire::cli
