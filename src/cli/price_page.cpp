// SPDX-License-Identifier: Apache-2.0
#include "cli/price_page.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/currency.hpp"
#include "base/units.hpp"
#include "cli/findings_page.hpp"
#include "cli/quantity.hpp"
#include "cli/table.hpp"
#include "cli/text_width.hpp"
#include "cli/volt_bar.hpp"

namespace duskwire::cli {
namespace {

using estimate::PriceGroup;
using estimate::PriceLine;

// Amounts of one table share a currency, which its head names: here only the number.
std::string amount(std::int64_t minor, const std::string& currency) { return decimal_amount(minor, currency); }

std::string signed_amount(std::int64_t minor, const std::string& currency) {
  return (minor > 0 ? "+" : "") + amount(minor, currency);
}

std::string hours_text(double hours) { return number(hours, 2) + " h"; }

std::string quantity_of(const PriceLine& line, const TextStyle& style) {
  if (line.unit == "m") return length(line.quantity, style);
  if (line.unit == "h") return hours_text(line.quantity);
  if (line.unit == "%") return fmt::format("{:g} %", line.quantity);
  return line.unit == "lump" ? "" : fmt::format("{:g}", line.quantity);
}

const char* title_of(PriceGroup group) {
  switch (group) {
    case PriceGroup::material:
      return "Material";
    case PriceGroup::labour:
      return "Labour";
    case PriceGroup::extra:
      return "Trips and extras";
    case PriceGroup::tax:
      break;
  }
  return "Tax";
}

void add_group(const estimate::Price& price, PriceGroup group, Table& table, const TextStyle& style) {
  std::int64_t cost_minor = 0;
  std::int64_t sum_minor = 0;
  bool any = false;
  for (const PriceLine& line : price.lines) {
    if (line.group != group) continue;
    if (!any) table.add_section(paint(style, Ink::strong, title_of(group)));
    any = true;
    cost_minor += line.cost_minor;
    sum_minor += line.price_minor;
    table.add({{line.text},
               {quantity_of(line, style)},
               {group == PriceGroup::tax ? "" : amount(line.cost_minor, price.currency), Ink::faint},
               {amount(line.price_minor, price.currency)}});
  }
  if (!any || group == PriceGroup::tax) return;
  const std::string hours = group == PriceGroup::labour ? hours_text(price.hours_total) : "";
  table.add({{"Together", Ink::faint},
             {hours, Ink::faint},
             {amount(cost_minor, price.currency), Ink::faint},
             {amount(sum_minor, price.currency), Ink::strong}});
}

std::string lines_text(const estimate::Price& price, const TextStyle& style) {
  Table table({{price.currency, Align::left, true, 24},
               {"quantity", Align::right},
               {"cost", Align::right},
               {"price", Align::right}});
  for (const PriceGroup group : {PriceGroup::material, PriceGroup::labour, PriceGroup::extra, PriceGroup::tax}) {
    add_group(price, group, table, style);
  }
  table.add_section(paint(style, Ink::strong, "Price"));
  table.add({{"Total", Ink::strong}, {""}, {""}, {amount(price.total_minor, price.currency), Ink::strong}});
  return table.text(style);
}

std::string margin_text(const estimate::Price& price, const TextStyle& style) {
  constexpr int bar_cells = 20;
  const bool low = price.margin_floor_pct && price.margin_pct < *price.margin_floor_pct;
  const Ink ink = low ? Ink::bad : Ink::good;
  const std::string floor =
      price.margin_floor_pct ? fmt::format(" {} the floor of {:g} %", low ? "below" : "above", *price.margin_floor_pct)
                             : std::string(" (the offer sets no floor)");
  std::string out =
      fmt::format("  {} {}{}\n", share_bar(std::clamp(price.margin_pct / 100, 0.0, 1.0), bar_cells, ink, style),
                  paint(style, ink, number(price.margin_pct, 1) + " %"), floor);
  const std::int64_t cost_minor = price.material_cost_minor + price.labour_cost_minor + price.other_cost_minor;
  std::string words =
      fmt::format("Of {} net {} are cost", money(price.net_minor, price.currency), amount(cost_minor, price.currency));
  if (price.overhead_minor > 0) {
    words += fmt::format(" and {} overhead; before overhead the margin is {} %",
                         amount(price.overhead_minor, price.currency), number(price.gross_margin_pct, 1));
  }
  return out + paragraph("  ", words + ".", style.width);
}

const char* kind_text(job::OptionKind kind) {
  switch (kind) {
    case job::OptionKind::part:
      return "part";
    case job::OptionKind::phase:
      return "phase";
    case job::OptionKind::variant:
      break;
  }
  return "variant";
}

std::string options_text(const estimate::Price& price, const TextStyle& style) {
  Table table({{"option", Align::left, true, 16},
               {"kind"},
               {"lights", Align::right},
               {"adds", Align::right},
               {price.currency, Align::right}});
  if (price.base_minor.value_or(0) != 0)
    table.add({{"What no option holds"}, {"base"}, {""}, {""}, {amount(*price.base_minor, price.currency)}});
  for (const estimate::PricedOption& option : price.options) {
    table.add({{(option.title.empty() ? option.id : option.title) + (option.chosen ? " (chosen)" : ""),
                option.chosen ? Ink::strong : Ink::plain},
               {kind_text(option.kind)},
               {std::to_string(option.luminaires.size())},
               {signed_amount(option.adds_minor, price.currency)},
               {amount(option.total_minor, price.currency), Ink::strong}});
  }
  std::string out = table.text(style);
  if (price.taken_minor) {
    out += paragraph("  ", fmt::format("As the client chose it: {}.", money(*price.taken_minor, price.currency)),
                     style.width);
  }
  return out + paragraph("  ",
                         "Parts add to the base, phases to what comes before, variants stand against the whole. All "
                         "are priced as drawn: no wiring is planned anew.",
                         style.width);
}

std::string assumptions_text(const estimate::Price& price, const TextStyle& style) {
  Table table({{"", Align::left, true, 20}, {"", Align::left, true, 20}});
  for (const estimate::Assumption& each : price.assumptions) table.add({{each.what}, {each.value}});
  return table.text(style);
}

std::string problems_text(const Problems& problems, const TextStyle& style) {
  std::string out;
  for (const Problem& problem : problems) {
    out += paragraph("  " + paint(style, ink_of(problem.severity), word_of(problem.severity)) + "  ", problem.message,
                     style.width);
  }
  return out;
}

}  // namespace

std::string price_text(const job::Job& job, const estimate::Price& price, const TextStyle& style) {
  const std::string tax = price.tax_minor == 0 ? "" : ", tax included";
  std::string out = paragraph(paint(style, Ink::strong, job.title) + ": ",
                              fmt::format("{}{}. {} of work, {:g} trips.", money(price.total_minor, price.currency),
                                          tax, number(price.hours_total, 1) + " h", price.trips),
                              style.width, 2);
  if (!price.problems.empty()) out += heading("Before you send it", style) + problems_text(price.problems, style);
  if (!price.lines.empty()) out += heading("Lines", style) + lines_text(price, style);
  if (price.net_minor > 0) out += heading("Margin", style) + margin_text(price, style);
  if (!price.options.empty()) out += heading("Options", style) + options_text(price, style);
  if (price.deposit) {
    const estimate::Deposit& deposit = *price.deposit;
    out += heading("Deposit", style) + paragraph("  ", deposit.reason, style.width);
    if (!deposit.rule.empty()) {
      out += paragraph("  ", fmt::format("Rule: {} ({}).", deposit.title, deposit.status), style.width);
    }
    out += paragraph("  ", "A figure to reckon with, not legal advice: ask which rule holds for your contract.",
                     style.width);
  }
  if (!price.assumptions.empty()) {
    out +=
        heading("By common practice, no source: what the offer does not say", style) + assumptions_text(price, style);
  }
  return out + "\n" +
         paragraph("",
                   "An estimate from the plan and the catalogue: look it over before you sign it. Soil, rock and roots "
                   "decide the hours; mains work is a licensed electrician's and is not in it.",
                   style.width);
}

std::string price_difference_text(const std::string& before, const estimate::PriceDifference& difference,
                                  const TextStyle& style) {
  std::string out = heading(fmt::format("Why it moved, against \"{}\"", before), style);
  out += problems_text(difference.problems, style);
  if (!difference.problems.empty()) return out;
  out += paragraph("  ", difference.summary, style.width);
  for (const estimate::LineDifference& line : difference.lines) out += paragraph("  - ", line.reason, style.width);
  return out;
}

}  // namespace duskwire::cli
