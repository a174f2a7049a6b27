// SPDX-License-Identifier: Apache-2.0
#include "cli/levels_page.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "cli/check_page.hpp"
#include "cli/findings_page.hpp"
#include "cli/names.hpp"
#include "cli/quantity.hpp"
#include "cli/table.hpp"
#include "cli/text_width.hpp"

namespace duskwire::cli {
namespace {

constexpr double lux_per_footcandle = 10.763910417;

std::string bare_lux(double lx) { return number(lx, lx < 10 ? 1 : 0); }

const char* word_of(study::LitPlace place) {
  static constexpr const char* words[] = {"walk",   "steps", "drive",  "terrace",       "bed",    "garden wall",
                                          "facade", "tree",  "ground", "property line", "window", "lamp"};
  return words[static_cast<std::size_t>(place)];
}

std::string name_of(const std::string& name, const std::string& id) { return name.empty() ? id : name; }

std::string verdict(const LevelsPage& page, const TextStyle& style) {
  const study::Levels& levels = page.levels;
  const bool good = levels.sound;
  std::string text = tally(severities_of(levels.findings)) + ".";
  if (levels.blocks_quote) text += " No quote goes out before a neighbour's errors are mended or accepted.";
  return paragraph(paint(style, good ? Ink::good : Ink::bad, good ? "Fit to be lit: " : "Not fit to be lit: "), text,
                   style.width);
}

std::string subject(const LevelsPage& page, const TextStyle& style) {
  const study::LevelSet* set = find_set(page.sets, page.levels.targets);
  return paragraph("",
                   fmt::format("{}: {} of light from {} lamps, {} of it upwards. Levels: {}.", page.job.title,
                               fmt::format("{:.0f} lm", page.levels.upward.flux_lm), page.levels.lamps.size(),
                               percent(page.levels.upward.upward_share), set ? set->title : page.levels.targets),
                   style.width);
}

// The verdicts in force, or that the set is silent.
Cell asked_cell(const study::PlaceLevels& place) {
  for (const study::LevelVerdict& verdict : place.verdicts) {
    if (verdict.in_force)
      return verdict.met ? Cell{"has " + verdict.asked, Ink::good} : Cell{"lacks " + verdict.missed, Ink::bad};
  }
  return {"nothing asked", Ink::faint};
}

std::string places_of(const LevelsPage& page, const TextStyle& style) {
  Table table({{"place", Align::left, true, 14},
               {"", Align::left},
               {"mean", Align::right},
               {"least", Align::right},
               {"most", Align::right},
               {"even", Align::right},
               {"upright", Align::right},
               {"", Align::left, true, 16}});
  for (const study::PlaceLevels& place : page.levels.places) {
    table.add({{name_of(place.name, place.id)},
               {word_of(place.place), Ink::faint},
               {bare_lux(place.lit.average_lx)},
               {bare_lux(place.lit.minimum_lx)},
               {bare_lux(place.lit.maximum_lx)},
               {number(place.lit.uniformity, 2)},
               {place.upright ? bare_lux(place.upright->average_lx) : ""},
               asked_cell(place)});
    for (const study::TreadLevels& tread : place.treads) {
      table.add({{fmt::format("  tread {}", tread.number), Ink::faint},
                 {""},
                 {bare_lux(tread.lit.average_lx)},
                 {bare_lux(tread.lit.minimum_lx)},
                 {bare_lux(tread.lit.maximum_lx)},
                 {number(tread.lit.uniformity, 2)},
                 {""},
                 {""}});
    }
  }
  return table.text(style);
}

// What every set asks of each kind of place that the garden has, side by side.
std::string sources_of(const LevelsPage& page, const TextStyle& style) {
  Table table({{"place"}, {"source", Align::left, true, 16}, {"asks", Align::left, true, 20}, {""}, {"seen"}});
  for (const study::PlaceLevels& place : page.levels.places) {
    for (const study::LevelVerdict& verdict : place.verdicts) {
      table.add({{name_of(place.name, place.id)},
                 {verdict.title, verdict.in_force ? Ink::strong : Ink::plain},
                 {verdict.asked},
                 {verdict.met ? "met" : "not met", verdict.met ? Ink::good : Ink::bad},
                 {verdict.provenance.status, Ink::faint}});
    }
  }
  return table.text(style);
}

std::string neighbours_of(const LevelsPage& page, const Names& names, const TextStyle& style) {
  std::string out;
  Table table({{"where", Align::left, true, 16},
               {"most", Align::right},
               {"limit", Align::right},
               {""},
               {"mostly from", Align::left, true, 16}});
  const auto add = [&](const std::string& where, double lx, double limit_lx, const std::string& lamp) {
    const bool over = lx > limit_lx;
    table.add({{where},
               {lux(lx, style)},
               {lux(limit_lx, style)},
               {over ? "over" : "within", over ? Ink::bad : Ink::good},
               {lamp.empty() ? "" : names.called(lamp)}});
  };
  for (const study::SpillEdge& edge : page.levels.property_line) {
    add(fmt::format("property line, edge {}", edge.edge + 1), edge.maximum_lx, page.levels.property_line_limit_lx,
        edge.lamp);
  }
  for (const study::WindowSpill& window : page.levels.windows) {
    add(names.called(window.view_point), window.lx, page.levels.window_limit_lx, window.lamp);
  }
  return table.empty() ? out : table.text(style);
}

std::string sights_of(const LevelsPage& page, const Names& names, bool full, const TextStyle& style) {
  Table table({{"eye", Align::left, true, 16},
               {"lamp", Align::left, true, 16},
               {"away", Align::right},
               {"off axis", Align::right},
               {"sends", Align::right},
               {"", Align::left, true, 16}});
  std::size_t hidden = 0;
  for (const study::SightLine& sight : page.levels.sights) {
    const bool seen = sight.state == study::SightState::visible || sight.state == study::SightState::accepted;
    if (!seen && !full) {
      ++hidden;
      continue;
    }
    table.add({{names.called(sight.view_point)},
               {names.called(sight.lamp)},
               {length(sight.distance_m, style)},
               {number(sight.off_axis_deg, 1) + style.glyphs.degree},
               {number(sight.intensity_cd, 1) + " cd"},
               {sight.words, seen ? Ink::caution : Ink::faint}});
  }
  std::string out = table.empty() ? "" : table.text(style);
  if (hidden > 0) out += paragraph("  ", fmt::format("{} more lines of sight: lamp hidden.", hidden), style.width);
  return out;
}

std::string brightness_of(const LevelsPage& page, const TextStyle& style) {
  static constexpr const char* roles[] = {"focal point", "support", "background", "dark"};
  Table table({{"", Align::left, true, 16}, {"cd/m2", Align::right}, {"of the brightest", Align::right}, {""}});
  for (const study::BrightnessRow& row : page.levels.brightness) {
    if (row.role == study::BrightnessRole::dark) continue;
    table.add({{name_of(row.name, row.id)},
               {number(row.luminance_cd_m2, 2)},
               {percent(row.ratio)},
               {roles[static_cast<std::size_t>(row.role)]}});
  }
  return table.empty() ? "" : table.text(style);
}

std::string lamps_of(const LevelsPage& page, const Names& names, const TextStyle& style) {
  Table table({{"lamp", Align::left, true, 16},
               {"light", Align::right},
               {"of full", Align::right},
               {"azimuth", Align::right},
               {"tilt", Align::right},
               {"upwards", Align::right},
               {""}});
  for (const study::LampLevels& lamp : page.levels.lamps) {
    table.add({{names.called(lamp.id)},
               {fmt::format("{:.0f} lm", lamp.flux_lm)},
               {percent(lamp.share)},
               {number(lamp.azimuth_deg, 0) + style.glyphs.degree},
               {number(lamp.tilt_deg, 0) + style.glyphs.degree},
               {percent(lamp.upward_share)},
               {lamp.aim_assumed ? "aim assumed" : "", Ink::caution}});
  }
  return table.text(style);
}

std::string bounce_words(const study::Levels& levels, const TextStyle& style) {
  const std::string straight = "Light with shadows, at today's dimming and on the volts of the wiring";
  if (!levels.bounce) return straight + "; light that bounces is not counted (--bounce counts it once).";
  return fmt::format(
      "{}, and what bounces once: walls and ground as matt patches of {} send back {:.0f} lm; crowns and glass "
      "send nothing back, and what bounces twice is not counted.",
      straight, short_length(levels.bounce->patch_m, style), levels.bounce->sent_lm);
}

// How much of the mean bounced, where that was asked for.
std::string bounced_of(const LevelsPage& page, const TextStyle& style) {
  if (!page.levels.bounce) return "";
  Table table({{"place", Align::left, true, 14}, {"mean", Align::right}, {"of it bounced", Align::right}});
  for (const study::PlaceLevels& place : page.levels.places) {
    table.add({{name_of(place.name, place.id)},
               {lux(place.lit.average_lx, style)},
               {place.lit.average_lx > 0 ? percent(place.lit.bounced_lx / place.lit.average_lx) : ""}});
  }
  return table.empty() ? "" : table.text(style);
}

void add_part(std::string& out, const std::string& title, const std::string& text, const TextStyle& style) {
  if (!text.empty()) out += heading(title, style) + text;
}

}  // namespace

std::string lux(double lx, const TextStyle& style) {
  const std::string text = bare_lux(lx) + " lx";
  if (style.units != job::DisplayUnits::us) return text;
  return fmt::format("{} ({:.2g} fc)", text, lx / lux_per_footcandle);
}

std::string levels_text(const LevelsPage& page, bool full, const TextStyle& style) {
  const Names names(page.job);
  std::string out = verdict(page, style) + "\n" + subject(page, style);
  if (!page.levels.places.empty()) add_part(out, "Light by place, in lux", places_of(page, style), style);
  add_part(out, "What bounced", bounced_of(page, style), style);
  if (full) add_part(out, "What the sources ask", sources_of(page, style), style);
  add_part(out, "What neighbours get", neighbours_of(page, names, style), style);
  add_part(out, "Who sees a bare lamp", sights_of(page, names, full, style), style);
  add_part(out, "What the eye finds first", brightness_of(page, style), style);
  if (full && !page.levels.lamps.empty()) add_part(out, "Lamps", lamps_of(page, names, style), style);
  add_part(out, "Findings", findings_page(page.levels.findings, names, full, style), style);
  add_part(out, "Notes", notes_page(page.levels.findings, style), style);
  const std::string rests =
      bounce_words(page.levels, style) +
      " Reflectances are usual ones. Light upwards is as it leaves the lamps. Steps and exits are "
      "judged on the spot at night.";
  add_part(out, "What this rests on", paragraph("  ", rests, style.width), style);
  return out + "\n" + cautions(style);
}

std::string choice_text(const study::Choice& choice, const TextStyle& style) {
  std::string out = paragraph("", choice.sentence, style.width);
  Table table({{""},
               {"article", Align::left, true, 14},
               {"n", Align::right},
               {"beam", Align::right},
               {"spot", Align::right},
               {"light", Align::right},
               {"mean", Align::right},
               {"least", Align::right},
               {"", Align::left, true, 20}});
  for (const study::ChoiceOption& option : choice.options) {
    table.add({{option.fits ? "fits" : "no", option.fits ? Ink::good : Ink::bad},
               {option.item},
               {fmt::format("{}", option.count)},
               {option.beam_deg >= 360 ? "all round" : number(option.beam_deg, 0) + style.glyphs.degree},
               {option.spot_m ? length(*option.spot_m, style) : ""},
               {fmt::format("{:.0f} lm", option.flux_lm)},
               {lux(option.average_lx, style)},
               {bare_lux(option.minimum_lx)},
               {fmt::format("{}", fmt::join(option.warnings, "; ")), Ink::bad}});
  }
  if (!table.empty()) out += "\n" + table.text(style);
  if (!choice.options.empty() && !choice.options.front().lamps.empty()) {
    Table places({{"lamp"},
                  {"x", Align::right},
                  {"y", Align::right},
                  {"up", Align::right},
                  {"azimuth", Align::right},
                  {"tilt", Align::right}});
    for (const study::ChosenLamp& lamp : choice.options.front().lamps) {
      places.add({{lamp.item},
                  {length(lamp.position.x_m, style)},
                  {length(lamp.position.y_m, style)},
                  {short_length(lamp.position.z_m, style)},
                  {number(lamp.azimuth_deg, 0) + style.glyphs.degree},
                  {number(lamp.tilt_deg, 1) + style.glyphs.degree}});
    }
    out += heading("Where the first of them go", style) + places.text(style);
  }
  for (const std::string& remark : choice.remarks) out += "\n" + paragraph("", remark, style.width);
  return out + "\n" + cautions(style);
}

}  // namespace duskwire::cli
