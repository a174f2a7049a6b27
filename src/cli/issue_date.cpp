// SPDX-License-Identifier: Apache-2.0
#include "cli/issue_date.hpp"

#include <fmt/format.h>

#include <chrono>

namespace duskwire::cli {

std::string today() {
  const std::chrono::year_month_day date(std::chrono::floor<std::chrono::days>(std::chrono::system_clock::now()));
  return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(date.year()), static_cast<unsigned>(date.month()),
                     static_cast<unsigned>(date.day()));
}

bool is_date(const std::string& text) {
  if (text.size() != 10 || text[4] != '-' || text[7] != '-') return false;
  for (const std::size_t i : {0, 1, 2, 3, 5, 6, 8, 9}) {
    if (text[i] < '0' || text[i] > '9') return false;
  }
  return true;
}

}  // namespace duskwire::cli
