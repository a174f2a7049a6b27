// SPDX-License-Identifier: Apache-2.0
#include "cli/workspace_file.hpp"

#include <fmt/format.h>

#include <filesystem>

#include "server/secrets.hpp"
#include "server/wall_clock.hpp"

namespace duskwire::cli {

Result<std::unique_ptr<store::Workspace>> open_workspace(const std::string& path, bool may_make) {
  std::error_code fault;
  if (!may_make && !std::filesystem::exists(path, fault)) {
    return Error{ErrorCode::not_found, fmt::format("There is no workspace \"{}\".", path)};
  }
  auto opened = store::Workspace::open(path, {server::now_utc, server::random_secret});
  if (!opened) return Error{opened.error().code, fmt::format("{}: {}", path, opened.error().message)};
  return opened;
}

}  // namespace duskwire::cli
