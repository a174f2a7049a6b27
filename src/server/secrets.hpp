// SPDX-License-Identifier: Apache-2.0
// Secrets: made from the operating system's random source, compared without telling where they differ.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

namespace duskwire::server {

// 256 random bits as 43 characters out of A-Z a-z 0-9 - _.
[[nodiscard]] std::string random_secret();
[[nodiscard]] std::uint32_t random_number();

[[nodiscard]] bool equal_in_constant_time(std::string_view p, std::string_view q);

}  // namespace duskwire::server
