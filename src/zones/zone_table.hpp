// SPDX-License-Identifier: Apache-2.0
// Time zones from the computer's own table (the IANA data that the system keeps up to date), as values for the almanac.
#pragma once

#include <string>

#include "almanac/zone.hpp"
#include "base/result.hpp"

namespace duskwire::zones {

// Up to here the table lists each change; later ones are not told.
inline constexpr int last_known_year = 2037;

// The zone of that IANA name with its changes from a year to a year and some days around them.
[[nodiscard]] Result<almanac::Zone> zone_of(const std::string& name, int first_year, int last_year);

}  // namespace duskwire::zones
