// SPDX-License-Identifier: Apache-2.0
// A visit beside its log: the readings that count are those that the log leaves standing. Internal to the room.
#pragma once

#include <vector>

#include "formats/context.hpp"
#include "job/visit.hpp"

namespace duskwire::formats {

// Readings of a log that no later entry struck, in the order in which entries count: at, device, number, id.
[[nodiscard]] std::vector<job::Reading> standing_readings(const std::vector<job::LogEntry>& log);

// Warns of entries of another visit, of entries that came twice or are missing, and of readings that differ.
void check_log(Context& context, const job::Visit& visit);

}  // namespace duskwire::formats
