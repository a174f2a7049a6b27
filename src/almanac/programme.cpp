// SPDX-License-Identifier: Apache-2.0
// A night runs from noon of one date to noon of the next. A clock time before noon therefore belongs to its second
// date.
#include "almanac/programme.hpp"

#include <cmath>
#include <cstddef>

namespace duskwire::almanac {
namespace {

constexpr std::int32_t noon_s = 12 * 3600;

bool in_the_morning(const SwitchMoment& moment) {
  return moment.at == SwitchAt::sunrise || (moment.at == SwitchAt::clock && moment.clock_s < noon_s);
}

std::int64_t whole(double seconds) { return std::llround(seconds); }

// One moment of a night; nothing where the sun does not give it.
class NightClock {
 public:
  NightClock(const Zone& zone, const Date& first_date, const SunDay& evening, const SunDay& morning)
      : zone_(zone), first_date_(first_date), evening_(evening), morning_(morning) {}

  std::optional<ClockMoment> moment(const SwitchMoment& wanted) const {
    switch (wanted.at) {
      case SwitchAt::clock:
        return moment_of(zone_, in_the_morning(wanted) ? later_by(first_date_, 1) : first_date_, wanted.clock_s);
      case SwitchAt::sunset:
        return by_sun(evening_, evening_.sun.set_s, wanted.offset_s);
      case SwitchAt::sunrise:
        return by_sun(morning_, morning_.sun.rise_s, wanted.offset_s);
    }
    return std::nullopt;
  }

 private:
  // Where the sun stays down, dusk and dawn have met at noon; where it stays up there is neither.
  static std::optional<ClockMoment> by_sun(const SunDay& day, const std::optional<double>& event_s,
                                           std::int32_t offset_s) {
    if (event_s) return ClockMoment{whole(*event_s) + offset_s, ClockCase::once};
    if (day.sun.state == SunState::always_below) return ClockMoment{whole(day.noon_s) + offset_s, ClockCase::once};
    return std::nullopt;
  }

  const Zone& zone_;
  Date first_date_;
  const SunDay& evening_;
  const SunDay& morning_;
};

bool stays_down(const SwitchMoment& moment, const SunDay& evening, const SunDay& morning) {
  if (moment.at == SwitchAt::sunset) return evening.sun.state == SunState::always_below;
  if (moment.at == SwitchAt::sunrise) return morning.sun.state == SunState::always_below;
  return false;
}

}  // namespace

bool within(const Season& season, const Date& date) {
  const unsigned day = month_day(date);
  if (season.from_month_day <= season.to_month_day) {
    return day >= season.from_month_day && day <= season.to_month_day;
  }
  return day >= season.from_month_day || day <= season.to_month_day;
}

bool runs_on(const ProgrammeRule& rule, const Date& date) {
  if ((rule.weekdays >> weekday_of(date) & 1) == 0) return false;
  return !rule.season || within(*rule.season, date);
}

Date night_begins(const ProgrammeRule& rule, const Date& date) {
  return in_the_morning(rule.on) ? later_by(date, -1) : date;
}

Switching switching(const ProgrammeRule& rule, const Zone& zone, const Date& date, const SunDay& evening,
                    const SunDay& morning) {
  Switching result;
  result.date = date;
  result.dark_all_day = stays_down(rule.on, evening, morning) || stays_down(rule.off, evening, morning);
  const Date first_date = night_begins(rule, date);
  const NightClock night(zone, first_date, evening, morning);
  const auto on = night.moment(rule.on);
  auto off = night.moment(rule.off);
  if (!on || !off) {
    result.night = NightCase::no_sunset;
    return result;
  }
  // From one clock time to another: the next time that the clock shows it, even past noon.
  const bool clocks_only = rule.on.at == SwitchAt::clock && rule.off.at == SwitchAt::clock;
  if (clocks_only && off->utc_s <= on->utc_s) {
    off = moment_of(zone, later_by(first_date, in_the_morning(rule.off) ? 2 : 1), rule.off.clock_s);
  }
  result.on_s = on->utc_s;
  result.off_s = off->utc_s;
  result.on_clock = on->clock;
  result.off_clock = off->clock;
  if (result.off_s <= result.on_s) result.night = NightCase::over_before_it_begins;
  return result;
}

std::vector<DayTimes> switching_year(const std::vector<ProgrammeRule>& rules, const Place& place, const Zone& zone,
                                     int year) {
  const std::int64_t first = day_number(make_date(year, 1, 1));
  const std::int64_t last = day_number(make_date(year, 12, 31));
  std::vector<SunDay> suns;  // from the day before to the day after
  for (std::int64_t day = first - 1; day <= last + 1; ++day) {
    const std::int64_t noon_utc_s = day * seconds_per_day + noon_s;
    suns.push_back(sun_day(place, date_of(day), in_force(zone, noon_utc_s).offset_s));
  }
  std::vector<DayTimes> days;
  for (std::int64_t day = first; day <= last; ++day) {
    const auto at = static_cast<std::size_t>(day - first) + 1;
    DayTimes times;
    times.sun = suns[at];
    for (std::size_t i = 0; i < rules.size(); ++i) {
      const Date date = date_of(day);
      if (!runs_on(rules[i], date)) continue;
      const std::size_t evening = night_begins(rules[i], date) == date ? at : at - 1;
      Switching found = switching(rules[i], zone, date, suns[evening], suns[evening + 1]);
      found.rule = static_cast<std::uint32_t>(i);
      times.switchings.push_back(found);
    }
    days.push_back(std::move(times));
  }
  return days;
}

}  // namespace duskwire::almanac
