// SPDX-License-Identifier: Apache-2.0
// What a program asks of locate beside a job: which visit's readings, and more of them. Also a table of readings as
// CSV.
#pragma once

#include <string_view>

#include "formats/requests.hpp"
#include "study/locate.hpp"

namespace duskwire::formats {

[[nodiscard]] ReadRequest<study::LocateOptions> read_locate_request(std::string_view text);

// Columns by the names that a reading has in the job: place and quantity, then value, unit, seen, load, clamped, at,
// lifted, time, note. Problems name the line.
[[nodiscard]] ReadRequest<study::LocateOptions> read_readings_csv(std::string_view text);

}  // namespace duskwire::formats
