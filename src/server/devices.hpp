// SPDX-License-Identifier: Apache-2.0
// The phones that may come in over the local network, in a file beside the workspace that its owner alone may read. A
// phone's secret is kept as its SHA-256 only. The command `duskwire devices` changes the file while a server runs: each
// question looks whether it has changed. Calls may come from any thread.
#pragma once

#include <cstdint>
#include <mutex>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"

namespace duskwire::server {

struct Device {
  std::string id;
  std::string name;
  std::string paired;  // ISO 8601 with Z
  std::string secret_sha256;
};

// Lost devices have to be forgotten before more than this many come.
inline constexpr std::size_t most_devices = 24;

class Devices {
 public:
  // The file need not be there yet. Errors: invalid (it is no such file), unavailable (it cannot be read).
  static Result<Devices> open(const std::string& workspace_file);
  Devices(Devices&& other) noexcept;

  // Of this workspace's server, made once: 32 hex digits. Kept in the file by the first call.
  Result<std::string> fingerprint();
  Result<std::vector<Device>> all();
  // What the phone keeps: its id, a dot, its secret. Errors: conflict (too many), unavailable, no_room.
  Result<std::string> add(const std::string& name, const std::string& now_utc);
  // True if there was one. It is known no more from the return on, in a running server too.
  Result<bool> forget(const std::string& id);
  // A file that cannot be read knows nobody.
  bool knows(std::string_view id_and_secret);

 private:
  struct Listed {
    std::string server;  // random, of which the fingerprint is made
    std::vector<Device> devices;
  };
  struct Stamp {
    std::int64_t inode = 0;
    std::int64_t bytes = 0;
    std::int64_t changed_ns = 0;
    bool operator==(const Stamp&) const = default;
  };

  explicit Devices(std::string file) : file_(std::move(file)) {}
  [[nodiscard]] Stamp stamp() const;
  Result<bool> refresh();
  Result<bool> write();
  template <class Change>
  auto change(Change&& make) -> decltype(make());

  std::string file_;
  std::mutex mutex_;
  Stamp seen_;
  Listed listed_;
};

}  // namespace duskwire::server
