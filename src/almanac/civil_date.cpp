// SPDX-License-Identifier: Apache-2.0
#include "almanac/civil_date.hpp"

#include <fmt/format.h>

namespace duskwire::almanac {

std::string date_text(const Date& date) {
  return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(date.year()), static_cast<unsigned>(date.month()),
                     static_cast<unsigned>(date.day()));
}

}  // namespace duskwire::almanac
