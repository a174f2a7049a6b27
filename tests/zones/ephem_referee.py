#!/usr/bin/env python3
# SPDX-License-Identifier: Apache-2.0
"""The referee of the almanac: sun and zones by ephem (its own search for rise and set) and by Python's zoneinfo.

Reads lines "zone latitude longitude date altitude clock": what the sun does on that date at that place, and which moment a
clock time of that date is. Writes for each: noon, lower passages before and after, rise and set through that altitude of
the sun's middle (or -), highest and lowest altitude between the passages, the sunset as the clock there shows it (or -),
and the moment of the clock time; all moments in seconds of UTC. Tells nothing about the program under test."""
import datetime
import math
import sys
import zoneinfo

import ephem

EPOCH = ephem.Date("1970/1/1")
UTC = datetime.timezone.utc


def seconds(date: float) -> float:
    return (date - EPOCH) * 86400


def moment(when: datetime.datetime) -> ephem.Date:
    return ephem.Date(when.astimezone(UTC).replace(tzinfo=None))


def altitude(place: ephem.Observer, when: float) -> float:
    place.date = when
    return math.degrees(ephem.Sun(place).alt)


def nearest_noon(place: ephem.Observer, clock_noon: ephem.Date) -> float:
    before = place.previous_transit(ephem.Sun(), start=clock_noon)
    after = place.next_transit(ephem.Sun(), start=clock_noon)
    return before if clock_noon - before < after - clock_noon else after


def event(search, place: ephem.Observer, start: float, end: float) -> float | None:
    """The first one that its search finds from `start` to `end`. Where it gives up (always up, never up), none."""
    try:
        found = search(ephem.Sun(), start=start, use_center=True)
    except (ephem.AlwaysUpError, ephem.NeverUpError):
        return None
    return found if start <= found <= end else None


def judge(line: str) -> str:
    zone_name, latitude, longitude, date, through, clock = line.split()
    zone = zoneinfo.ZoneInfo(zone_name)
    place = ephem.Observer()
    place.lat, place.lon, place.pressure, place.elevation, place.horizon = latitude, longitude, 0, 0, through
    day = datetime.date.fromisoformat(date)
    noon = nearest_noon(place, moment(datetime.datetime.combine(day, datetime.time(12), zone)))
    begin = place.previous_antitransit(ephem.Sun(), start=noon)
    end = place.next_antitransit(ephem.Sun(), start=noon)
    rise = event(place.next_rising, place, begin, noon)
    sets = event(place.next_setting, place, noon, end)
    local = "-"
    if sets is not None:
        utc = datetime.datetime(1970, 1, 1, tzinfo=UTC) + datetime.timedelta(seconds=round(seconds(sets)))
        local = utc.astimezone(zone).strftime("%Y-%m-%dT%H:%M:%S%z")
    wall = datetime.datetime.combine(day, datetime.time.fromisoformat(clock), zone)
    heights = [altitude(place, when) for when in (begin, noon, end)]
    numbers = [seconds(noon), seconds(begin), seconds(end)]
    words = [f"{number:.1f}" for number in numbers]
    words += ["-" if found is None else f"{seconds(found):.6f}" for found in (rise, sets)]
    words += [f"{max(heights):.5f}", f"{min(heights):.5f}", local, str(int(wall.timestamp()))]
    return " ".join(words)


def main() -> None:
    for line in sys.stdin:
        print(judge(line))


if __name__ == "__main__":
    main()
