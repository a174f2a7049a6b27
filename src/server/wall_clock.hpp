// SPDX-License-Identifier: Apache-2.0
// The computer's clock, for whoever opens a workspace or pairs a phone. Any thread.
#pragma once

#include <string>

namespace duskwire::server {

// This moment in UTC, to the second: 2026-03-01T10:00:00Z.
[[nodiscard]] std::string now_utc();

}  // namespace duskwire::server
