// SPDX-License-Identifier: Apache-2.0
// A few zones for tests, written down from the public rules of their countries.
#pragma once

#include "almanac/utc_text.hpp"
#include "almanac/zone.hpp"

namespace duskwire::almanac::testing {

inline OffsetChange change(const char* utc, int hours, const char* abbreviation) {
  return {read_utc_s(utc), hours * 3600, abbreviation};
}

inline Zone chicago_2026() {
  return {"America/Chicago",
          {change("2025-11-02T07:00:00Z", -6, "CST"), change("2026-03-08T08:00:00Z", -5, "CDT"),
           change("2026-11-01T07:00:00Z", -6, "CST")}};
}

inline Zone sydney_2026() {
  return {"Australia/Sydney",
          {change("2025-10-04T16:00:00Z", 11, "AEDT"), change("2026-04-04T16:00:00Z", 10, "AEST"),
           change("2026-10-03T16:00:00Z", 11, "AEDT")}};
}

inline Zone helsinki_2026() {
  return {"Europe/Helsinki",
          {change("2025-10-26T01:00:00Z", 2, "EET"), change("2026-03-29T01:00:00Z", 3, "EEST"),
           change("2026-10-25T01:00:00Z", 2, "EET")}};
}

inline Zone new_york_2019() {
  return {"America/New_York",
          {change("2018-11-04T06:00:00Z", -5, "EST"), change("2019-03-10T07:00:00Z", -4, "EDT"),
           change("2019-11-03T06:00:00Z", -5, "EST")}};
}

inline Zone london_2019() {
  return {"Europe/London",
          {change("2018-10-28T01:00:00Z", 0, "GMT"), change("2019-03-31T01:00:00Z", 1, "BST"),
           change("2019-10-27T01:00:00Z", 0, "GMT")}};
}

}  // namespace duskwire::almanac::testing
