// SPDX-License-Identifier: Apache-2.0
// Starts the server on a workspace file and stays until it is told to stop.
#pragma once

#include <chrono>
#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "server/export_file.hpp"
#include "server/lan_desk.hpp"

namespace duskwire::server {

struct JobToAdd {
  std::string document;                 // JSON text of a job
  std::vector<ExportPicture> pictures;  // that it refers to, as far as they were found
};

// The door to the local network. Never remembered: each start says anew whether it is open.
struct LanOptions {
  std::string address;               // empty: all private addresses of this computer
  std::chrono::milliseconds idle{};  // closes after so long without a paired phone
  std::function<void(const LanNews&)> tell;
};

struct ServeOptions {
  std::uint16_t port = 0;  // 0: any that is free
  std::string workspace_file;
  std::string page_folder;         // empty: without a page
  std::vector<std::string> names;  // that Host may hold besides our own
  std::optional<LanOptions> lan;
  std::vector<JobToAdd> starters;  // put in where the workspace has no job of that id
};

struct Started {
  std::string address;                     // with the token of this start: for the person at this machine alone
  bool page = true;                        // false: the folder holds no built page
  bool only_ipv4 = false;                  // this computer has no ::1, else it is served there too
  std::string no_backup;                   // why none can be asked for while this runs; empty: it can
  std::vector<std::string> lan_addresses;  // for phones, without any secret; empty: the door is shut
  std::string fingerprint;                 // of this server, where the door is open
};

// `on_start` is called once, when the first request could be answered. Returns after SIGINT or SIGTERM.
Result<bool> serve(const ServeOptions& options, const std::function<void(const Started&)>& on_start);

}  // namespace duskwire::server
