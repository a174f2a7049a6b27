// SPDX-License-Identifier: Apache-2.0
#include "cli/times_page.hpp"

#include <fmt/format.h>

#include <cmath>
#include <cstdlib>
#include <optional>
#include <string_view>

#include "cli/check_page.hpp"
#include "cli/findings_page.hpp"
#include "cli/names.hpp"
#include "cli/quantity.hpp"
#include "cli/table.hpp"
#include "cli/text_width.hpp"

namespace duskwire::cli {
namespace {

constexpr std::string_view month_names[] = {"January", "February", "March",     "April",   "May",      "June",
                                            "July",    "August",   "September", "October", "November", "December"};

// "19:13" of "2026-03-08T19:12:36-05:00", to the nearest minute; with "+1" where it is the next day.
std::string clock(const std::optional<std::string>& moment, const std::string& date, const std::string& none) {
  if (!moment) return none;
  const int seconds = std::atoi(moment->substr(17, 2).c_str());
  const int minutes = std::atoi(moment->substr(11, 2).c_str()) * 60 + std::atoi(moment->substr(14, 2).c_str()) +
                      (seconds >= 30 ? 1 : 0);
  const bool later = moment->substr(0, 10) > date || minutes == 24 * 60;
  return fmt::format("{:02}:{:02}{}", minutes / 60 % 24, minutes % 60, later ? " +1" : "");
}

std::string coordinate(double degrees, char positive, char negative, const TextStyle& style) {
  return fmt::format("{:.2f}{} {}", std::abs(degrees), style.glyphs.degree, degrees < 0 ? negative : positive);
}

std::string subject(const job::Job& job, const study::Times& times, const TextStyle& style) {
  return paragraph(
      "",
      fmt::format("{}, {}: {}, {}, {}.", job.title, times.year, coordinate(times.latitude_deg, 'N', 'S', style),
                  coordinate(times.longitude_deg, 'E', 'W', style), times.zone),
      style.width);
}

std::string changes(const study::Times& times, const TextStyle& style) {
  if (times.clock_changes.empty()) return paragraph("", "The clocks do not change in this year.", style.width);
  std::string text = "Clocks change";
  for (std::size_t i = 0; i < times.clock_changes.size(); ++i) {
    const study::ClockChangeDay& change = times.clock_changes[i];
    text += fmt::format("{} on {} {} by {:g} min to {}", i == 0 ? "" : ",", change.date,
                        change.by_min > 0 ? "forward" : "back", std::abs(change.by_min), change.abbreviation);
  }
  return paragraph("", text + ".", style.width);
}

std::string entries(const study::Times& times, const TextStyle& style) {
  Table table({{"entry", Align::left, true, 12},
               {"when", Align::left, true, 20},
               {"lamps", Align::right},
               {"nights", Align::right},
               {"hours", Align::right}});
  for (const study::EntryYear& entry : times.entries) {
    table.add({{entry.name.empty() ? entry.id : entry.name},
               {entry.words},
               {fmt::format("{}", entry.lamps.size())},
               {fmt::format("{}", entry.nights_lit)},
               {fmt::format("{:.0f}", entry.hours)}});
  }
  return table.text(style);
}

std::string sun_cell(const study::DayRow& day, bool set) {
  if (day.sun.state == study::DayState::polar_day) return "up all day";
  if (day.sun.state == study::DayState::polar_night) return "down all day";
  return clock(set ? day.sun.sunset : day.sun.sunrise, day.date, "");
}

// One row for each entry that runs that day.
void add_day(Table& table, const study::DayRow& day, const TextStyle& style) {
  const std::string date = day.date.substr(5) + " " + day.weekday + (day.clock_change_min != 0 ? " *" : "");
  if (day.entries.empty()) {
    table.add({{date}, {sun_cell(day, false)}, {sun_cell(day, true)}, {style.glyphs.dash, Ink::faint}, {""}, {""}});
  }
  for (std::size_t i = 0; i < day.entries.size(); ++i) {
    const study::EntryTimes& entry = day.entries[i];
    const bool first = i == 0;
    table.add({{first ? date : ""},
               {first ? sun_cell(day, false) : ""},
               {first ? sun_cell(day, true) : ""},
               {entry.entry},
               {entry.state == study::EntryState::lit ? clock(entry.on, day.date, "") : "off"},
               {clock(entry.off, day.date, "")}});
  }
}

Table day_table() {
  return Table({{"date", Align::left},
                {"sunrise", Align::right},
                {"sunset", Align::right},
                {"entry", Align::left, true, 10},
                {"on", Align::right},
                {"off", Align::right}});
}

std::string card(const study::Times& times, const TextStyle& style) {
  Table table = day_table();
  for (const study::MonthTimes& month : times.months) {
    table.add_section(
        paint(style, Ink::strong,
              fmt::format("{}: {:.0f} h, {:.1f} kWh", month_names[month.month - 1], month.hours, month.energy_kwh)));
    for (const study::DayRow& day : month.days) add_day(table, day, style);
  }
  return table.text(style);
}

std::string each_day(const study::Times& times, const TextStyle& style) {
  Table table = day_table();
  for (const study::DayRow& day : times.days) add_day(table, day, style);
  return table.text(style);
}

std::string cost(const std::optional<double>& minor, const std::string& currency) {
  return minor ? ", " + money(std::llround(*minor), currency) : "";
}

std::string energy(const study::Times& times, const TextStyle& style) {
  std::string text = fmt::format("{:.0f} hours with light, {:.0f} kWh from the mains{} in the year, an estimate.",
                                 times.hours, times.energy_kwh, cost(times.cost_minor, times.currency));
  if (times.retrofit) {
    const study::Retrofit& retrofit = *times.retrofit;
    text += fmt::format(
        " The same light of {} lamps takes {:.0f} kWh at the lamps by LED and {:.0f} kWh by halogen: "
        "{:.0f} kWh{} between them, and {:.1f} lamps a year against {:.1f}.",
        retrofit.lamps, retrofit.led.energy_kwh, retrofit.halogen.energy_kwh, retrofit.saved_kwh,
        cost(retrofit.saved_minor, times.currency), retrofit.led.lamps_a_year, retrofit.halogen.lamps_a_year);
  }
  return paragraph("", text, style.width);
}

}  // namespace

std::string times_text(const job::Job& job, const study::Times& times, bool full, const TextStyle& style) {
  if (times.months.empty()) return findings_page(times.findings, Names(job), false, style);
  std::string text = subject(job, times, style) + changes(times, style);
  if (!times.entries.empty()) text += heading("Programme", style) + entries(times, style);
  text +=
      heading(full ? "Each day" : "Card for the timer", style) + (full ? each_day(times, style) : card(times, style));
  text += paragraph("", "+1: after midnight. *: clocks change. Sunset is that of an open horizon.", style.width);
  text += heading("Hours and energy", style) + energy(times, style);
  if (!times.findings.empty()) text += findings_page(times.findings, Names(job), false, style);
  text += heading("Assumed", style);
  for (const std::string& line : times.assumptions) text += paragraph("", line, style.width);
  return text;
}

}  // namespace duskwire::cli
