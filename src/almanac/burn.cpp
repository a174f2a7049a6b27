// SPDX-License-Identifier: Apache-2.0
// Everything changes at a few moments only: between two of them each level, power and price is constant.
#include "almanac/burn.hpp"

#include <algorithm>
#include <cstddef>
#include <tuple>

namespace duskwire::almanac {
namespace {

struct Stretch {
  std::int64_t on_s = 0;
  std::int64_t off_s = 0;
  std::uint32_t rule = 0;
  double level = 0;
};

std::vector<Stretch> stretches_of(const std::vector<DayTimes>& days, const std::vector<ProgrammeRule>& rules,
                                  const std::vector<std::uint32_t>& of_rules) {
  std::vector<Stretch> found;
  for (const DayTimes& day : days) {
    for (const Switching& s : day.switchings) {
      if (s.night != NightCase::lit) continue;
      if (std::find(of_rules.begin(), of_rules.end(), s.rule) == of_rules.end()) continue;
      found.push_back({s.on_s, s.off_s, s.rule, rules[s.rule].level});
    }
  }
  std::sort(found.begin(), found.end(),
            [](const Stretch& a, const Stretch& b) { return std::tie(a.on_s, a.rule) < std::tie(b.on_s, b.rule); });
  return found;
}

void add_interval(std::vector<Interval>& list, const Interval& next) {
  if (!list.empty() && list.back().to_s == next.from_s && list.back().level == next.level) {
    list.back().to_s = next.to_s;
  } else {
    list.push_back(next);
  }
}

double price_at(const Tariff& tariff, const Zone& zone, std::int64_t utc_s) {
  const std::int32_t now_s = local_time(zone, utc_s).second_of_day;
  for (const TariffBand& band : tariff.bands) {
    const bool within_day = band.from_s < band.to_s;
    const bool after = now_s >= band.from_s;
    const bool before = now_s < band.to_s;
    if (within_day ? after && before : after || before) return band.price_minor_per_kwh;
  }
  return tariff.price_minor_per_kwh;
}

// Where a price may change between two moments.
void add_price_steps(std::vector<std::int64_t>& steps, const Tariff& tariff, const Zone& zone, std::int64_t from_s,
                     std::int64_t to_s) {
  if (tariff.bands.empty()) return;
  for (const OffsetChange& change : zone.changes) {
    if (change.from_s > from_s && change.from_s < to_s) steps.push_back(change.from_s);
  }
  const Date last = local_time(zone, to_s).date;
  for (Date date = local_time(zone, from_s).date; date <= last; date = later_by(date, 1)) {
    for (const TariffBand& band : tariff.bands) {
      for (const std::int32_t clock_s : {band.from_s, band.to_s}) {
        const std::int64_t at_s = moment_of(zone, date, clock_s).utc_s;
        if (at_s > from_s && at_s < to_s) steps.push_back(at_s);
      }
    }
  }
}

// The level of a list at a moment; `next` runs on with time.
double level_at(const std::vector<Interval>& list, std::size_t& next, std::int64_t utc_s) {
  while (next < list.size() && list[next].to_s <= utc_s) ++next;
  return next < list.size() && list[next].from_s <= utc_s ? list[next].level : 0;
}

}  // namespace

std::vector<Interval> lit_intervals(const std::vector<DayTimes>& days, const std::vector<ProgrammeRule>& rules,
                                    const std::vector<std::uint32_t>& of_rules) {
  const std::vector<Stretch> stretches = stretches_of(days, rules, of_rules);
  std::vector<std::int64_t> steps;
  for (const Stretch& s : stretches) steps.insert(steps.end(), {s.on_s, s.off_s});
  std::sort(steps.begin(), steps.end());
  steps.erase(std::unique(steps.begin(), steps.end()), steps.end());

  std::vector<Interval> list;
  std::vector<Stretch> burning;  // in the order of switching on
  std::size_t next = 0;
  for (std::size_t i = 0; i + 1 < steps.size(); ++i) {
    std::erase_if(burning, [&](const Stretch& s) { return s.off_s <= steps[i]; });
    for (; next < stretches.size() && stretches[next].on_s <= steps[i]; ++next) burning.push_back(stretches[next]);
    if (!burning.empty() && burning.back().level > 0) {
      add_interval(list, {steps[i], steps[i + 1], burning.back().level});
    }
  }
  return list;
}

Burn burn(const std::vector<Interval>& intervals) {
  Burn total;
  for (const Interval& each : intervals) {
    const double hours = static_cast<double>(each.to_s - each.from_s) / 3600;
    total.hours += hours;
    total.full_hours += hours * each.level;
  }
  return total;
}

Use supply_use(const Supply& supply, const std::vector<double>& group_w, const std::vector<std::vector<Interval>>& lit,
               const Tariff& tariff, const Zone& zone) {
  std::vector<std::int64_t> steps;
  for (const auto& list : lit) {
    for (const Interval& each : list) {
      steps.insert(steps.end(), {each.from_s, each.to_s});
      add_price_steps(steps, tariff, zone, each.from_s, each.to_s);
    }
  }
  std::sort(steps.begin(), steps.end());
  steps.erase(std::unique(steps.begin(), steps.end()), steps.end());

  Use use;
  std::vector<std::size_t> next(lit.size(), 0);
  for (std::size_t i = 0; i + 1 < steps.size(); ++i) {
    double lamps_w = 0;
    bool any = false;
    for (std::size_t g = 0; g < lit.size(); ++g) {
      const double level = level_at(lit[g], next[g], steps[i]);
      lamps_w += level * group_w[g];
      any = any || level > 0;
    }
    if (!any) continue;
    const double share = supply.full_w > 0 ? lamps_w / supply.full_w : 0;
    const double mains_w = lamps_w + supply.core_loss_w + supply.line_loss_w * share * share;
    const double kwh = mains_w * static_cast<double>(steps[i + 1] - steps[i]) / 3.6e6;
    use.energy_kwh += kwh;
    use.cost_minor += kwh * price_at(tariff, zone, steps[i]);
  }
  return use;
}

}  // namespace duskwire::almanac
