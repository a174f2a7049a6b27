// SPDX-License-Identifier: Apache-2.0
#include "cli/photometry_page.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "cli/polar_plot.hpp"
#include "cli/problems_page.hpp"
#include "cli/quantity.hpp"
#include "cli/table.hpp"
#include "cli/text_width.hpp"
#include "light/opening.hpp"

namespace duskwire::cli {
namespace {

std::string lumens(double flux_lm) { return number(flux_lm, flux_lm < 100 ? 1 : 0) + " lm"; }

std::string degrees(double angle_deg, const TextStyle& style) {
  return number(angle_deg, 1) + (style.glyphs.degree.empty() ? " deg" : style.glyphs.degree);
}

std::string label_of(const study::PhotometryReport& report, const char* name) {
  for (const light::Keyword& label : report.labels) {
    if (label.name == name) return label.text.substr(0, label.text.find('\n'));
  }
  return "";
}

std::string subject(const study::PhotometryReport& report, const TextStyle& style) {
  const std::string luminaire = label_of(report, "LUMINAIRE");
  std::string text = fmt::format("{} in {} planes, {} vertical angles, type {}.", report.source,
                                 report.horizontal_count, report.vertical_count, "CBA"[static_cast<int>(report.type)]);
  if (!report.origin.empty()) text += fmt::format(" Origin: {}.", report.origin);
  return paragraph("", (luminaire.empty() ? "" : luminaire + ". ") + text, style.width);
}

std::string beam_text(const std::optional<double>& angle_deg, const TextStyle& style) {
  return angle_deg ? degrees(*angle_deg, style) : "all round";
}

std::string facts(const study::PhotometryReport& report, const TextStyle& style) {
  const light::Photometry& light = report.light;
  Table table({{"", Align::left}, {"", Align::left, true, 30}});
  const auto add = [&](const std::string& name, const std::string& value) { table.add({{name, Ink::faint}, {value}}); };
  add("flux", fmt::format("{}, {} down, {} up", lumens(light.flux_lm), percent(light.down_pct / 100),
                          percent(light.up_pct / 100)));
  add("peak", fmt::format("{} cd at C {}, gamma {}", number(light.peak_cd, 0), degrees(light.peak_c_deg, style),
                          degrees(light.peak_gamma_deg, style)));
  for (const light::BeamAngles& beam : light.beams) {
    add(fmt::format("beam, C {:.0f}-{:.0f}", beam.c_deg, beam.c_deg + 180),
        fmt::format("{} to half, field {} to a tenth", beam_text(beam.beam_deg, style),
                    beam_text(beam.field_deg, style)));
  }
  if (report.power_w > 0) {
    add("power", watts(report.power_w) +
                     (report.efficacy_lm_w ? fmt::format(", {} lm/W", number(*report.efficacy_lm_w, 1)) : ""));
  }
  add("photometry",
      report.lamp_flux_lm
          ? fmt::format(
                "relative to lamps of {}{}", lumens(*report.lamp_flux_lm),
                report.output_ratio_pct ? ", of which " + percent(*report.output_ratio_pct / 100) + " leave" : "")
          : "absolute");
  const light::Opening& opening = report.opening;
  std::string size;
  if (opening.shape != light::OpeningShape::point && opening.shape != light::OpeningShape::unknown) {
    size = fmt::format(", {:.3g} x {:.3g} x {:.3g} m", opening.width_m, opening.length_m, opening.height_m);
  }
  add("opening", light::words_of(opening.shape) + size);
  if (!report.tilt.empty() && report.tilt != "NONE")
    add("tilt", report.tilt + " (its factors are not in the light here)");
  return table.text(style);
}

std::string zones(const light::Photometry& light, const TextStyle& style) {
  Table table({{"zone", Align::left}, {"lumens", Align::right}, {"share", Align::right}, {"so far", Align::right}});
  for (const light::ZonalRow& row : light.zones) {
    if (row.flux_lm < 0.0005 * light.flux_lm) continue;
    table.add({{fmt::format("{:.0f}{}{:.0f}", row.gamma_from_deg, style.glyphs.dash, row.gamma_to_deg)},
               {number(row.flux_lm, 1)},
               {number(row.share_pct, 1) + " %"},
               {number(row.so_far_pct, 1) + " %"}});
  }
  return table.text(style);
}

const char* word_of(light::BugLetter letter) {
  static constexpr const char* words[] = {"backlight", "uplight", "glare"};
  return words[static_cast<std::size_t>(letter)];
}

std::string ratings(const light::BugRating& bug, const TextStyle& style) {
  Table table({{"", Align::left},
               {"zone", Align::left},
               {"lumens", Align::right},
               {"rating", Align::right},
               {"upper limits of 0 to 4", Align::left, true, 18},
               {"limits", Align::left}});
  for (const light::BugLimit& limit : bug.limits) {
    table.add({{word_of(limit.letter)},
               {light::words_of(limit.zone)},
               {number(limit.flux_lm, 1)},
               {fmt::format("{}", limit.rating), limit.rating >= 4 ? Ink::caution : Ink::plain},
               {fmt::format("{}", fmt::join(limit.limits_lm, " "))},
               {limit.status == light::SourceStatus::seen ? "seen" : "from memory", Ink::faint}});
  }
  return table.text(style);
}

}  // namespace

std::string photometry_text(const study::PhotometryAnswer& answer, const TextStyle& style) {
  const study::PhotometryReport& report = *answer.report;
  const light::BugRating& bug = report.light.bug;
  std::string out = subject(report, style) + "\n" + facts(report, style);
  out += heading("Polar plot", style) + polar_plot(report.light, style);
  out += heading("Zonal lumens", style) + zones(report.light, style);
  out += heading(fmt::format("Backlight, uplight, glare: B{} U{} G{}", bug.backlight, bug.uplight, bug.glare), style);
  out += ratings(bug, style);
  out += paragraph("  ",
                   fmt::format("As the lamp hangs in its file, by the limits for {}. Ratings are meant for lamps that "
                               "light areas from above.",
                               bug.even_all_round ? "an even pool (type V)" : "types I to IV"),
                   style.width);
  if (!answer.findings.empty()) out += heading("Findings", style) + problems_text(answer.findings, style);
  return out;
}

}  // namespace duskwire::cli
