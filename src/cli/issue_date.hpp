// SPDX-License-Identifier: Apache-2.0
// The date that papers are issued on, as ISO 8601 has it.
#pragma once

#include <string>

namespace duskwire::cli {

// Of this moment, in UTC.
[[nodiscard]] std::string today();

[[nodiscard]] bool is_date(const std::string& text);

}  // namespace duskwire::cli
