// SPDX-License-Identifier: Apache-2.0
#include "cli/materials_page.hpp"

#include <fmt/format.h>

#include <cmath>

#include "base/units.hpp"
#include "cli/findings_page.hpp"
#include "cli/quantity.hpp"
#include "cli/table.hpp"
#include "cli/text_width.hpp"

namespace duskwire::cli {
namespace {

// From this width on the cut list tells names beside ids.
constexpr int wide_columns = 110;

// Amounts of one table share a currency, which its head names: here only the number.
std::string amount(std::int64_t minor, const std::string& currency) {
  const std::string text = money(minor, currency);
  return text.substr(0, text.find(' '));
}

std::string quantity_of(const estimate::MaterialLine& line, const TextStyle& style) {
  if (line.unit == "m") return length(line.quantity, style);
  return fmt::format("{:g}", line.quantity);
}

std::string each_of(const estimate::MaterialLine& line, const std::string& currency, const TextStyle& style) {
  if (line.unit != "m") return amount(line.unit_price_minor, currency);
  if (style.units == job::DisplayUnits::metric) return amount(line.unit_price_minor, currency) + "/m";
  const double per_ft = static_cast<double>(line.unit_price_minor) * units::m_per_ft;
  return amount(std::llround(per_ft), currency) + "/ft";
}

std::string purchases(const estimate::Materials& list, const TextStyle& style) {
  Table table({{"item", Align::left, true, 24},
               {"quantity", Align::right},
               {"each", Align::right},
               {list.currency, Align::right}});
  for (const estimate::MaterialLine& line : list.lines) {
    table.add({{line.title},
               {quantity_of(line, style)},
               {each_of(line, list.currency, style)},
               {amount(line.price_minor, list.currency)}});
  }
  table.add({{"Total", Ink::strong}, {""}, {""}, {amount(list.price_minor, list.currency), Ink::strong}});
  return table.text(style);
}

std::string cable_sums(const job::Job& job, const estimate::Materials& list, const TextStyle& style) {
  Table table({{"cable", Align::left, true, 12},
               {"cuts", Align::right},
               {"route", Align::right},
               {"slack", Align::right},
               {"cut", Align::right},
               {fmt::format("+{:g} % waste", job.practice.waste_pct), Align::right},
               {"buy", Align::right}});
  for (const estimate::CableTotal& total : list.cables) {
    table.add({{total.title},
               {std::to_string(total.cuts)},
               {length(total.route_m, style)},
               {length(total.slack_m, style)},
               {length(total.cut_m, style)},
               {length(total.with_waste_m, style)},
               {length(total.bought_m, style), Ink::strong}});
  }
  return table.text(style);
}

std::string kind_word(const std::optional<job::JointKind>& kind) {
  if (!kind) return "nothing to join";
  switch (*kind) {
    case job::JointKind::in_line:
      return "in line";
    case job::JointKind::branch:
      return "branch";
    case job::JointKind::hub:
      return "hub";
    case job::JointKind::end_of_run:
      break;
  }
  return "end of run";
}

std::string remark_of(const estimate::Splice& splice) {
  if (!splice.connector.empty() && !splice.fits) return "does not fit";
  return splice.suggested ? "suggested" : "";
}

// "F-J7" belongs to run "F".
std::string run_of(const std::string& joint) { return joint.substr(0, joint.rfind('-')); }

bool alike(const estimate::Splice& p, const estimate::Splice& q) {
  return run_of(p.joint) == run_of(q.joint) && p.kind == q.kind && p.wires_per_conductor == q.wires_per_conductor &&
         p.connector == q.connector && p.pieces == q.pieces && remark_of(p) == remark_of(q);
}

// Neighbours in the list that take the same stand in one line.
std::string joints(const estimate::Materials& list, const TextStyle& style) {
  Table table({{"joints", Align::left, true, 14},
               {"kind"},
               {"wires", Align::right},
               {"connector", Align::left, true, 14},
               {"pieces", Align::right},
               {"remark", Align::left, true, 10}});
  for (std::size_t i = 0; i < list.splices.size();) {
    std::size_t end = i + 1;
    while (end < list.splices.size() && alike(list.splices[i], list.splices[end])) ++end;
    const estimate::Splice& splice = list.splices[i];
    const std::string to = end - i > 1 ? fmt::format(" to {} ({})", list.splices[end - 1].joint, end - i) : "";
    table.add({{splice.joint + to},
               {kind_word(splice.kind)},
               {std::to_string(splice.wires_per_conductor)},
               {splice.connector.empty() ? "-" : splice.connector},
               {end - i > 1 ? fmt::format("{} x {}", end - i, splice.pieces) : std::to_string(splice.pieces)},
               {remark_of(splice), splice.fits ? Ink::plain : Ink::bad}});
    i = end;
  }
  return table.text(style);
}

std::string end_of(const std::string& id, const std::string& name, bool wide) {
  return wide && name != id && !name.empty() ? fmt::format("{} ({})", id, name) : id;
}

std::string cut_list(const estimate::Materials& list, const TextStyle& style) {
  const bool wide = style.width >= wide_columns;
  Table table({{"tag"},
               {"cable"},
               {"from", Align::left, true, 10, true},
               {"to", Align::left, true, 10, true},
               {"cut", Align::right},
               {"reel", Align::right},
               {"mark", Align::right}});
  for (const estimate::Cut& cut : list.cuts) {
    table.add({{cut.tag},
               {cut.item},
               {end_of(cut.from, cut.from_name, wide)},
               {end_of(cut.to, cut.to_name, wide)},
               {length(cut.cut_m, style), Ink::strong},
               {std::to_string(cut.reel)},
               {length(cut.running_m, style)}});
  }
  return table.text(style);
}

std::string remarks(const estimate::Materials& list, const TextStyle& style) {
  std::string out;
  for (const Problem& problem : list.problems) {
    out += paragraph("  " + paint(style, ink_of(problem.severity), word_of(problem.severity)) + "  ", problem.message,
                     style.width);
  }
  return out;
}

}  // namespace

std::string materials_text(const job::Job& job, const estimate::Materials& list, const TextStyle& style) {
  const std::string lead = paint(style, Ink::strong, job.title) + ": ";
  std::string out = paragraph(lead,
                              fmt::format("goods for {}, about {} h of hands-on work.",
                                          money(list.price_minor, list.currency), number(list.labour_min / 60, 1)),
                              style.width, 2);
  if (!list.problems.empty()) out += heading("Before you order", style) + remarks(list, style);
  if (!list.lines.empty()) out += heading("To buy", style) + purchases(list, style);
  if (!list.cables.empty()) out += heading("Cable", style) + cable_sums(job, list, style);
  if (!list.splices.empty()) out += heading("Joints", style) + joints(list, style);
  if (!list.cuts.empty()) {
    out += heading("Cut list  (write the tag on both ends; mark: the reel's count after this cut)", style) +
           cut_list(list, style);
  }
  return out + "\n" +
         paragraph("",
                   "Prices and minutes are estimates of the catalogue: put your own there. Rock, roots, digging and "
                   "driving are not in them.",
                   style.width);
}

}  // namespace duskwire::cli
