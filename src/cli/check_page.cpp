// SPDX-License-Identifier: Apache-2.0
#include "cli/check_page.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "cli/findings_page.hpp"
#include "cli/lamps_page.hpp"
#include "cli/names.hpp"
#include "cli/outputs_page.hpp"
#include "cli/quantity.hpp"
#include "cli/text_width.hpp"

namespace duskwire::cli {
namespace {

// The lamp with the least room to the edge of its window, in words.
std::string tightest_lamp(const CheckPage& page, const Names& names) {
  if (page.report.lamps.empty()) return "There are no lamps in this job yet.";
  const auto lamp = std::min_element(page.report.lamps.begin(), page.report.lamps.end(),
                                     [](const auto& p, const auto& q) { return room_v(p) < room_v(q); });
  const bool low = lamp->worst_low_v - lamp->window_min_v <= lamp->window_max_v - lamp->worst_high_v;
  return fmt::format("{} lamp: {} sees {} at worst; its window is {:g} to {:g} V.", low ? "Lowest" : "Highest",
                     names.called(lamp->id), volts(low ? lamp->worst_low_v : lamp->worst_high_v), lamp->window_min_v,
                     lamp->window_max_v);
}

std::string verdict(const CheckPage& page, const Names& names, const TextStyle& style) {
  const std::string word = page.report.sound ? "Sound" : "Not sound";
  const std::string lead = paint(style, page.report.sound ? Ink::good : Ink::bad, word + ": ");
  return paragraph(lead, tally(severities_of(page.report.findings)) + ".", style.width) +
         paragraph("", tightest_lamp(page, names), style.width);
}

// "us (United States)": what stands after a colon in a ruleset's title is for its own page.
std::string short_title(const study::Ruleset& ruleset) {
  return fmt::format("{} ({})", ruleset.id, ruleset.title.substr(0, ruleset.title.find(':')));
}

std::string subject(const CheckPage& page, const TextStyle& style) {
  const auto counted = [](std::size_t count, const std::string& word) {
    return fmt::format("{} {}{}", count, word, count == 1 ? "" : "s");
  };
  const std::string text =
      fmt::format("{}: {}, {} of lamps, {}. Rules: {}.", page.job.title, counted(page.report.lamps.size(), "lamp"),
                  volt_amperes(page.report.lamp_va), counted(page.report.transformers.size(), "transformer"),
                  short_title(page.ruleset));
  return paragraph("", text, style.width);
}

std::string growth(double factor, bool beyond) {
  if (beyond) return "could grow many times over";
  return fmt::format("could grow by {}", percent(factor - 1));
}

std::string margins(const CheckPage& page, const Names& names, const TextStyle& style) {
  const study::MarginReport& margin = page.report.margin;
  if (page.report.lamps.empty()) return "";
  if (margin.load_factor <= 0) {
    return paragraph("  ", fmt::format("None: {} is not fully lit as it is.", names.called(margin.load_first_lamp)),
                     style.width);
  }
  std::string text =
      fmt::format("All loads {} before a lamp loses full light", growth(margin.load_factor, margin.load_beyond_cap));
  if (!margin.load_beyond_cap) text += fmt::format(" (first {})", margin.load_first_lamp);
  text += fmt::format("; all cable lengths {}", growth(margin.length_factor, margin.length_beyond_cap));
  if (!margin.length_beyond_cap) text += fmt::format(" (first {})", margin.length_first_lamp);
  return paragraph("  ", text + ".", style.width);
}

std::string assumptions(const job::Site& site, const TextStyle& style) {
  const job::Corners& corners = site.corners;
  const double step = corners.mains_tolerance_pct / 100;
  std::string text = fmt::format(
      "At worst means: mains {:.0f} to {:.0f} V ({:g} V {}{:g} %), cable at {} to {}, lengths {}{:g} %, all lamps on",
      site.mains_v * (1 - step), site.mains_v * (1 + step), site.mains_v, style.glyphs.plus_minus,
      corners.mains_tolerance_pct, temperature(corners.cable_cold_c, style), temperature(corners.cable_hot_c, style),
      style.glyphs.plus_minus, corners.length_tolerance_pct);
  text += corners.few_lamps ? " or one alone." : ".";
  text += fmt::format(" Otherwise nominal mains, cable at {}.", temperature(corners.cable_nominal_c, style));
  return paragraph("  ", text, style.width);
}

}  // namespace

std::string cautions(const TextStyle& style) {
  return paint(style, Ink::faint, "") +
         paragraph("",
                   "Computed estimates, not measurements: measure volts and amps when the job is lit. Local code and a "
                   "licensed electrician decide; mains work is theirs.",
                   style.width);
}

std::string check_text(const CheckPage& page, Detail detail, const TextStyle& style) {
  const Names names(page.job);
  const study::Report& report = page.report;
  std::string out = verdict(page, names, style) + "\n" + subject(page, style);
  if (!report.transformers.empty()) {
    out += heading("Transformers and outputs", style) + outputs_page(report, names, style);
  }
  if (detail != Detail::brief && !report.lamps.empty()) {
    const Glyphs& g = style.glyphs;
    out += heading(fmt::format("Lamps  ({} now, {} from worst low to worst high, {} {} the edges of its window)", g.now,
                               g.range, g.edge, g.edge),
                   style);
    out += lamps_page(report, names, style);
  }
  if (detail == Detail::full) {
    out += heading("Cables", style) + cables_page(report, style);
    out += heading("Corners", style) + corners_page(report, style);
  }
  const std::string findings = findings_page(report.findings, names, detail == Detail::full, style);
  if (!findings.empty()) out += heading("Findings", style) + findings;
  const std::string notes = notes_page(report.findings, style);
  if (!notes.empty()) out += heading("Notes", style) + notes;
  out += heading("Margin", style) + margins(page, names, style);
  out += heading("What this rests on", style) + assumptions(page.job.site, style);
  return out + "\n" + cautions(style);
}

}  // namespace duskwire::cli
