// SPDX-License-Identifier: Apache-2.0
#include "formats/calendar.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <cstdlib>
#include <string_view>

#include "base/utf8.hpp"

namespace duskwire::formats {
namespace {

constexpr std::size_t longest_line_bytes = 75;  // RFC 5545, 3.1, without the line end

// RFC 5545, 3.3.11.
std::string escaped(std::string_view text) {
  std::string out;
  for (const char c : well_formed(text)) {
    if (c == '\n') {
      out += "\\n";
    } else if (c == '\\' || c == ';' || c == ',') {
      out += '\\';
      out += c;
    } else if (c == '\t' || static_cast<unsigned char>(c) >= 0x20) {
      out += c;  // other control characters are not allowed
    }
  }
  return out;
}

class Lines {
 public:
  void line(std::string_view name, std::string_view value) {
    std::string rest = std::string(name) + ":" + std::string(value);
    std::size_t room = longest_line_bytes;
    while (rest.size() > room) {
      std::size_t cut = room;
      while ((static_cast<unsigned char>(rest[cut]) & 0xc0) == 0x80) --cut;  // never within a character
      out_ += rest.substr(0, cut) + "\r\n ";
      rest.erase(0, cut);
      room = longest_line_bytes - 1;
    }
    out_ += rest + "\r\n";
  }
  void words(std::string_view name, std::string_view text) {
    if (!text.empty()) line(name, escaped(text));
  }
  [[nodiscard]] const std::string& str() const { return out_; }

 private:
  std::string out_;
};

std::string date_form(const almanac::Date& date) {
  std::string text = almanac::date_text(date);
  std::erase(text, '-');
  return text;
}

std::string time_form(const almanac::LocalTime& local) {
  return fmt::format("{}T{:02}{:02}{:02}", date_form(local.date), local.second_of_day / 3600,
                     local.second_of_day / 60 % 60, local.second_of_day % 60);
}

std::string utc_form(std::int64_t utc_s) { return time_form(almanac::local_time(almanac::utc_zone(), utc_s)) + "Z"; }

std::string offset_form(std::int32_t offset_s) {
  const int size_s = std::abs(offset_s);
  std::string text = fmt::format("{}{:02}{:02}", offset_s < 0 ? '-' : '+', size_s / 3600, size_s / 60 % 60);
  if (size_s % 60 != 0) text += fmt::format("{:02}", size_s % 60);
  return text;
}

bool is_utc(const almanac::Zone& zone) {
  return std::all_of(zone.changes.begin(), zone.changes.end(), [](const auto& c) { return c.offset_s == 0; }) &&
         (zone.name == "UTC" || zone.name == "Etc/UTC" || zone.name.empty());
}

// Each change as an observance of its own: no rule is guessed from dates.
void add_zone(Lines& out, const almanac::Zone& zone) {
  out.line("BEGIN", "VTIMEZONE");
  out.line("TZID", escaped(zone.name));
  for (std::size_t i = 0; i < zone.changes.size(); ++i) {
    const almanac::OffsetChange& change = zone.changes[i];
    const std::int32_t before_s = i == 0 ? change.offset_s : zone.changes[i - 1].offset_s;
    const bool later =
        i == 0 ? zone.changes.size() > 1 && change.offset_s > zone.changes[1].offset_s : change.offset_s > before_s;
    const char* kind = later ? "DAYLIGHT" : "STANDARD";
    out.line("BEGIN", kind);
    const std::int64_t onset_s =
        i == 0 ? std::min<std::int64_t>(change.from_s, 0) + before_s : change.from_s + before_s;
    out.line("DTSTART", time_form(almanac::local_time(almanac::utc_zone(), onset_s)));
    out.line("TZOFFSETFROM", offset_form(before_s));
    out.line("TZOFFSETTO", offset_form(change.offset_s));
    out.words("TZNAME", change.abbreviation);
    out.line("END", kind);
  }
  out.line("END", "VTIMEZONE");
}

// Readers differ about a local time that its zone shows twice: such a moment is written in UTC.
bool plain(const almanac::Zone& zone, std::int64_t utc_s) {
  const almanac::LocalTime local = almanac::local_time(zone, utc_s);
  return almanac::moment_of(zone, local.date, local.second_of_day).clock == almanac::ClockCase::once;
}

// Start and end, not a duration: readers differ in how they add one across a change of the clocks.
void add_times(Lines& out, const CalendarEvent& event, const almanac::Zone& zone) {
  const std::int64_t end_utc_s = event.start_utc_s + std::int64_t{event.duration_min} * 60;
  if (is_utc(zone) || !plain(zone, event.start_utc_s) || !plain(zone, end_utc_s)) {
    out.line("DTSTART", utc_form(event.start_utc_s));
    out.line("DTEND", utc_form(end_utc_s));
  } else {
    out.line(fmt::format("DTSTART;TZID={}", zone.name), time_form(almanac::local_time(zone, event.start_utc_s)));
    out.line(fmt::format("DTEND;TZID={}", zone.name), time_form(almanac::local_time(zone, end_utc_s)));
  }
}

void add_event(Lines& out, const CalendarEvent& event, const Calendar& calendar) {
  out.line("BEGIN", "VEVENT");
  out.words("UID", event.uid);
  out.line("DTSTAMP", utc_form(calendar.stamp_utc_s));
  if (event.whole_day) {
    out.line("DTSTART;VALUE=DATE", date_form(event.date));
    out.line("DTEND;VALUE=DATE", date_form(almanac::later_by(event.date, 1)));
    out.line("TRANSP", "TRANSPARENT");
  } else {
    add_times(out, event, calendar.zone);
  }
  out.words("SUMMARY", event.summary);
  out.words("DESCRIPTION", event.description);
  out.words("LOCATION", event.location);
  out.line("CLASS", "PRIVATE");
  out.line("END", "VEVENT");
}

}  // namespace

std::string calendar_text(const Calendar& calendar) {
  Lines out;
  out.line("BEGIN", "VCALENDAR");
  out.line("VERSION", "2.0");
  out.line("PRODID", "-//duskwire//duskwire " DUSKWIRE_VERSION "//EN");
  out.line("CALSCALE", "GREGORIAN");
  out.words("X-WR-CALNAME", calendar.name);
  const bool timed = std::any_of(calendar.events.begin(), calendar.events.end(),
                                 [](const CalendarEvent& event) { return !event.whole_day; });
  if (timed && !is_utc(calendar.zone)) add_zone(out, calendar.zone);
  for (const CalendarEvent& event : calendar.events) add_event(out, event, calendar);
  out.line("END", "VCALENDAR");
  return out.str();
}

}  // namespace duskwire::formats
