// SPDX-License-Identifier: Apache-2.0
// Burn hours, energy and its cost, from stretches of light. Where several rules light the same lamps, the one that
// switched on last says how bright. Powers are estimates, and so is what comes of them.
#pragma once

#include <cstdint>
#include <vector>

#include "almanac/programme.hpp"

namespace duskwire::almanac {

// A transformer. Its core is warm only while a lamp of it burns: the clock switches its mains side.
struct Supply {
  double full_w = 0;       // all its lamps at full light
  double line_loss_w = 0;  // in windings and cables then; falls with the square of the load
  double core_loss_w = 0;
};

// Minor units of a currency per kilowatt-hour; other prices between two clock times of each day, first one that fits.
struct TariffBand {
  std::int32_t from_s = 0;  // second of the day
  std::int32_t to_s = 0;    // at or before from_s: on the next day
  double price_minor_per_kwh = 0;
};
struct Tariff {
  double price_minor_per_kwh = 0;
  std::vector<TariffBand> bands;
};

struct Burn {
  double hours = 0;       // with any light
  double full_hours = 0;  // weighted by the level
};

struct Use {
  double energy_kwh = 0;
  double cost_minor = 0;
};

struct Interval {
  std::int64_t from_s = 0;
  std::int64_t to_s = 0;
  double level = 0;  // above 0
};

// When lamps that these rules light burn, and how bright; ascending, touching ones of equal level joined.
[[nodiscard]] std::vector<Interval> lit_intervals(const std::vector<DayTimes>& days,
                                                  const std::vector<ProgrammeRule>& rules,
                                                  const std::vector<std::uint32_t>& of_rules);

[[nodiscard]] Burn burn(const std::vector<Interval>& intervals);

// What all groups of one supply take from the mains. `lit` holds each group's intervals.
[[nodiscard]] Use supply_use(const Supply& supply, const std::vector<double>& group_w,
                             const std::vector<std::vector<Interval>>& lit, const Tariff& tariff, const Zone& zone);

}  // namespace duskwire::almanac
