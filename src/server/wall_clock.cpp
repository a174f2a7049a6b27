// SPDX-License-Identifier: Apache-2.0
#include "server/wall_clock.hpp"

#include <fmt/format.h>

#include <chrono>
#include <ctime>

namespace duskwire::server {

std::string now_utc() {
  const std::time_t now = std::chrono::system_clock::to_time_t(std::chrono::system_clock::now());
  std::tm parts{};
  ::gmtime_r(&now, &parts);
  return fmt::format("{:04}-{:02}-{:02}T{:02}:{:02}:{:02}Z", parts.tm_year + 1900, parts.tm_mon + 1, parts.tm_mday,
                     parts.tm_hour, parts.tm_min, parts.tm_sec);
}

}  // namespace duskwire::server
