// SPDX-License-Identifier: Apache-2.0
#include "cli/outputs_page.hpp"

#include <fmt/format.h>

#include "cli/quantity.hpp"
#include "cli/table.hpp"
#include "cli/text_width.hpp"
#include "cli/volt_bar.hpp"

namespace duskwire::cli {
namespace {

// From this width on there is room for nominal amps and longer bars.
constexpr int wide_columns = 108;

Ink ink_of_share(double share) {
  if (share > 1.0) return Ink::bad;
  return share > 0.8 ? Ink::caution : Ink::good;
}

Cell load_cell(double share, int cells, const TextStyle& style) {
  return {share_bar(share, cells, ink_of_share(share), style) + pad_left(percent(share), 6), Ink::plain, true};
}

// A short that draws less than the limit feeds heat into the ground without end: said in words, not by colour alone.
Cell short_cell(const study::OutputReport& output) {
  if (output.far_short_at.empty()) return {"-", Ink::faint};
  if (output.limit_a <= 0) return {amps(output.far_short_a), Ink::plain};
  const bool trips = output.far_short_a > output.limit_a;
  return {amps(output.far_short_a) + (trips ? " trips" : " too low"), trips ? Ink::plain : Ink::bad};
}

std::string transformer_line(const study::TransformerReport& unit, const Names& names, const TextStyle& style) {
  const std::string name = names.name(unit.id);
  const std::string title = name.empty() ? unit.id : unit.id + "  " + name;
  std::string load = fmt::format("{} of {} at worst ({}), ", volt_amperes(unit.worst_load_va),
                                 volt_amperes(unit.rating_va), percent(unit.load_share));
  load += unit.headroom_va >= 0 ? volt_amperes(unit.headroom_va) + " to spare"
                                : volt_amperes(-unit.headroom_va) + " too much";
  const std::string text = "  " + paint(style, Ink::strong, title) + ": ";
  return paragraph(text, load, style.width);
}

Table outputs_table(bool wide) {
  std::vector<Column> columns = {{"output"}, {"tap", Align::right}, {"volts", Align::right}};
  if (wide) columns.push_back({"amps now", Align::right});
  columns.insert(
      columns.end(),
      {{wide ? "at worst" : "amps", Align::right}, {"limit", Align::right}, {"load"}, {"lamps", Align::right}});
  if (wide) columns.push_back({"lamp volts"});
  columns.push_back({"far short"});
  return Table(columns);
}

Row output_row(const study::OutputReport& output, bool wide, const TextStyle& style) {
  Row row = {{output.id}, {fmt::format("{:g} V", output.tap_v)}, {number(output.terminal_v, 2)}};
  if (wide) row.push_back({amps(output.current_a)});
  row.push_back({amps(output.worst_current_a)});
  row.push_back({fmt::format("{:g} A", output.limit_a)});
  row.push_back(load_cell(output.load_share, wide ? 16 : 8, style));
  row.push_back({std::to_string(output.lamp_count)});
  if (wide) {
    const std::string span = number(output.lowest_lamp_v, 1) + style.glyphs.dash + number(output.highest_lamp_v, 1);
    row.push_back({output.lamp_count > 0 ? span : "-"});
  }
  row.push_back(short_cell(output));
  return row;
}

}  // namespace

std::string outputs_page(const study::Report& report, const Names& names, const TextStyle& style) {
  const bool wide = style.width >= wide_columns;
  std::string out;
  for (const study::TransformerReport& unit : report.transformers) {
    if (!out.empty()) out += "\n";
    out += transformer_line(unit, names, style);
    Table table = outputs_table(wide);
    for (const study::OutputReport& output : report.outputs) {
      if (output.transformer == unit.id) table.add(output_row(output, wide, style));
    }
    out += table.text(style);
  }
  return out;
}

std::string cables_page(const study::Report& report, const TextStyle& style) {
  Table table({{"cable"},
               {"output"},
               {"length", Align::right},
               {"amps", Align::right},
               {"worst", Align::right},
               {"drop", Align::right},
               {"volts from", Align::right},
               {"to", Align::right},
               {"heat", Align::right}});
  for (const study::CableReport& cable : report.cables) {
    table.add({{cable.id},
               {cable.output.empty() ? "-" : cable.output},
               {length(cable.length_m, style)},
               {amps(cable.current_a)},
               {amps(cable.worst_current_a)},
               {volts(cable.drop_v)},
               {number(cable.from_v, 2)},
               {number(cable.to_v, 2)},
               {number(cable.loss_w, 2) + " W"}});
  }
  return table.text(style);
}

std::string corners_page(const study::Report& report, const TextStyle& style) {
  Table table(
      {{"corner", Align::left, true, 20}, {"lowest", Align::right}, {"lamp"}, {"highest", Align::right}, {"lamp"}});
  for (const study::CornerReport& corner : report.corners) {
    table.add({{corner.converged ? corner.name : corner.name + " (not solved)"},
               {volts(corner.lowest_v)},
               {corner.lowest_lamp},
               {volts(corner.highest_v)},
               {corner.highest_lamp}});
  }
  return table.text(style);
}

}  // namespace duskwire::cli
