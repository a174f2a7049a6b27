// SPDX-License-Identifier: Apache-2.0
// A workspace is open in one program alone, so a backup of one that is being served is made by its server. The command
// asks for it at a socket beside the workspace's file: it is in the file system, not on the network, and the system
// lets the owner of the workspace alone connect to it. Linux only, as the picture worker.
#pragma once

#include <memory>
#include <optional>
#include <string>

#include "base/result.hpp"
#include "store/workspace.hpp"

namespace duskwire::server {

// Answers at the socket from its own thread for as long as it lives; then the socket is taken away.
class BackupDoor {
 public:
  // Whoever holds the workspace open may take away what an earlier server left at the socket's name. Errors:
  // unavailable (the file system knows no sockets, the name is too long, or something else has it).
  static Result<std::unique_ptr<BackupDoor>> open(store::Workspace& workspace, const std::string& workspace_file);
  ~BackupDoor();
  BackupDoor(const BackupDoor&) = delete;
  BackupDoor& operator=(const BackupDoor&) = delete;

 private:
  struct State;
  explicit BackupDoor(std::unique_ptr<State> state);
  std::unique_ptr<State> state_;
};

// Has the server of this workspace write a backup to `output`; waits until it is done. Nothing where no server has the
// workspace open: then the caller opens it itself. Errors: as of Workspace::back_up, and unavailable where the server
// breaks off.
[[nodiscard]] std::optional<Result<bool>> back_up_by_server(const std::string& workspace_file,
                                                            const std::string& output);

}  // namespace duskwire::server
