// SPDX-License-Identifier: Apache-2.0
// Reads dates and moments of reference tables: "2022-11-27", "2022-11-27T10:28:20Z", the offset of "07:18:00-0500".
#pragma once

#include <cstdint>
#include <string>

#include "almanac/civil_date.hpp"

namespace duskwire::almanac::testing {

inline Date read_date(const std::string& text) {
  return make_date(std::stoi(text.substr(0, 4)), static_cast<unsigned>(std::stoi(text.substr(5, 2))),
                   static_cast<unsigned>(std::stoi(text.substr(8, 2))));
}

inline std::int64_t read_utc_s(const std::string& text) {
  return day_number(read_date(text)) * seconds_per_day + std::stoi(text.substr(11, 2)) * 3600 +
         std::stoi(text.substr(14, 2)) * 60 + std::stoi(text.substr(17, 2));
}

// The last five characters: "-0500".
inline int read_offset_s(const std::string& local_time) {
  const std::string offset = local_time.substr(local_time.size() - 5);
  const int seconds = std::stoi(offset.substr(1, 2)) * 3600 + std::stoi(offset.substr(3, 2)) * 60;
  return offset[0] == '-' ? -seconds : seconds;
}

}  // namespace duskwire::almanac::testing
