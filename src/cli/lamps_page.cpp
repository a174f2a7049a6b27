// SPDX-License-Identifier: Apache-2.0
#include "cli/lamps_page.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "cli/quantity.hpp"
#include "cli/table.hpp"
#include "cli/text_width.hpp"
#include "cli/volt_bar.hpp"

namespace duskwire::cli {
namespace {

using electrical::LampState;

constexpr int wide_columns = 124;
constexpr int bar_cells = 19;
constexpr int wide_bar_cells = 35;

// Share of light as an eye would tell it apart.
constexpr double full_light = 0.995;

Table lamps_table(bool wide) {
  std::vector<Column> columns = {
      {"lamp"}, {"name", Align::left, true, 12, true}, {"volts", Align::right}, {"at worst"}, {"inside its window"}};
  if (wide) {
    columns.insert(columns.end(),
                   {{"window"}, {"amps", Align::right}, {"light", Align::right}, {"away", Align::right}});
  }
  columns.push_back({"state"});
  return Table(columns);
}

Row lamp_row(const study::LampReport& lamp, const Names& names, bool wide, const TextStyle& style) {
  const LampVerdict verdict = verdict_of(lamp);
  const std::string dash = style.glyphs.dash;
  const Ink ink = verdict.ink == Ink::good ? Ink::plain : verdict.ink;
  Row row = {{lamp.id},
             {names.name(lamp.id)},
             {number(lamp.nominal_v, 2), ink},
             {pad_left(number(lamp.worst_low_v, 2), 5) + dash + number(lamp.worst_high_v, 2), ink},
             {volt_bar({lamp.nominal_v, lamp.worst_low_v, lamp.worst_high_v, lamp.window_min_v, lamp.window_max_v},
                       wide ? wide_bar_cells : bar_cells, style),
              Ink::plain, true}};
  if (wide) {
    row.push_back({fmt::format("{:g}{}{:g}", lamp.window_min_v, dash, lamp.window_max_v)});
    row.push_back({amps(lamp.current_a)});
    row.push_back({percent(lamp.light), lamp.light < full_light ? Ink::caution : Ink::plain});
    row.push_back({length(lamp.distance_m, style)});
  }
  row.push_back({verdict.text, verdict.ink});
  return row;
}

std::string group_title(const study::Report& report, const std::string& output) {
  if (output.empty()) return "Fed by no output";
  for (const study::OutputReport& entry : report.outputs) {
    if (entry.id == output) return fmt::format("{}, tap {:g} V", output, entry.tap_v);
  }
  return output;
}

// Outputs in the report's order, then the lamps that none feeds.
std::vector<std::string> groups_of(const study::Report& report) {
  std::vector<std::string> groups;
  for (const study::OutputReport& output : report.outputs) groups.push_back(output.id);
  groups.emplace_back();
  return groups;
}

}  // namespace

double room_v(const study::LampReport& lamp) {
  return std::min(lamp.worst_low_v - lamp.window_min_v, lamp.window_max_v - lamp.worst_high_v);
}

LampVerdict verdict_of(const study::LampReport& lamp) {
  if (lamp.state == LampState::off) return {"off", Ink::bad};
  if (lamp.nominal_v < lamp.window_min_v) return {lamp.state == LampState::dim ? "dim" : "low", Ink::bad};
  if (lamp.nominal_v > lamp.window_max_v) return {"high", Ink::bad};
  if (lamp.worst_low_v < lamp.window_min_v) {
    if (lamp.worst_state == LampState::off) return {"off at worst", Ink::bad};
    return {lamp.worst_state == LampState::dim ? "dim at worst" : "low at worst", Ink::bad};
  }
  if (lamp.worst_high_v > lamp.window_max_v) return {"high at worst", Ink::bad};
  return {"good", Ink::good};
}

std::string lamps_page(const study::Report& report, const Names& names, const TextStyle& style) {
  const bool wide = style.width >= wide_columns;
  Table table = lamps_table(wide);
  for (const std::string& group : groups_of(report)) {
    std::vector<const study::LampReport*> lamps;
    for (const study::LampReport& lamp : report.lamps) {
      if (lamp.output == group) lamps.push_back(&lamp);
    }
    if (lamps.empty()) continue;
    table.add_section(group_title(report, group));
    for (const study::LampReport* lamp : lamps) table.add(lamp_row(*lamp, names, wide, style));
  }
  return table.text(style);
}

}  // namespace duskwire::cli
