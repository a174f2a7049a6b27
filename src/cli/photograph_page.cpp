// SPDX-License-Identifier: Apache-2.0
#include "cli/photograph_page.hpp"

#include <fmt/format.h>

#include "base/units.hpp"
#include "cli/quantity.hpp"
#include "cli/table.hpp"
#include "cli/text_width.hpp"

namespace duskwire::cli {
namespace {

// Sizes on a photograph are good to centimetres at best: "7.33 m", "24.1 ft".
std::string size_words(double size_m, const TextStyle& style) {
  return style.units == job::DisplayUnits::us ? number(size_m / units::m_per_ft, 1) + " ft" : number(size_m, 2) + " m";
}

std::string error_words(double error_m, const TextStyle& style) {
  return style.glyphs.plus_minus + size_words(error_m, style);
}

std::string focal_words(const light::Calibrated& found) {
  switch (found.focal_from) {
    case light::FocalFrom::given:
      return "as given";
    case light::FocalFrom::assumed:
      return "assumed: the picture does not tell it";
    default:
      return "found from the picture";
  }
}

std::string camera_text(const light::Calibrated& found, const TextStyle& style) {
  const light::Camera& camera = found.camera;
  std::string text = fmt::format(
      "Camera at x {}, y {}, {} over grade ({}, one standard deviation). Focal length {:.0f} px ({}{:.0f}), {}. The "
      "marked "
      "places miss by {:.1f} px on average.",
      size_words(camera.position.x_m, style), size_words(camera.position.y_m, style),
      size_words(camera.position.z_m, style), error_words(found.position_error_m, style), camera.focal_px,
      style.glyphs.plus_minus, found.focal_error_px, focal_words(found), found.residual_px);
  if (found.adjoining_width_m) {
    text += fmt::format(" The second wall is {} wide ({}).", size_words(std::abs(*found.adjoining_width_m), style),
                        error_words(found.adjoining_error_m, style));
  }
  return paragraph("", text, style.width);
}

void add_list(std::string& out, const char* title, const std::vector<std::string>& sentences, const TextStyle& style) {
  if (sentences.empty()) return;
  out += heading(title, style);
  for (std::size_t i = 0; i < sentences.size(); ++i) {
    out += paragraph(fmt::format("  {}. ", i + 1), sentences[i], style.width);
  }
}

}  // namespace

std::string measure_text(const job::View& view, const study::CalibratedView& found, const TextStyle& style) {
  std::string out = paint(style, Ink::strong, view.name.empty() ? view.id : view.name) + "\n";
  if (!found.calibrated) return out + paragraph("", found.problem, style.width);
  out += camera_text(*found.calibrated, style);
  if (!found.measures.empty()) {
    out += heading("Lengths", style);
    Table table({{"length", Align::left, true},
                 {"size", Align::right},
                 {"95 of 100 within", Align::right},
                 {"", Align::left, true}});
    for (const study::MeasuredLength& measure : found.measures) {
      const std::string name = measure.name.empty() ? measure.id : measure.name;
      if (measure.length_m) {
        table.add({{name}, {size_words(*measure.length_m, style)}, {error_words(measure.error_95_m, style)}, {""}});
      } else {
        table.add({{name}, {""}, {""}, {measure.problem, Ink::caution}});
      }
    }
    out += table.text(style);
  }
  add_list(out, "To mend", found.findings, style);
  return out + heading("What this rests on", style) +
         paragraph(
             "  ",
             "The sizes that were given, square picture elements, a lens without distortion, and the middle of the "
             "picture where its axis meets it: a picture that was cropped on one side measures wrongly. Estimates, "
             "not a survey.",
             style.width);
}

std::string look_text(const study::FirstLook& look, const TextStyle& style) {
  std::string out = paint(style, Ink::strong, "A first look: estimates from one photograph") + "\n";
  if (!look.sizes.empty()) {
    out += heading("Sizes", style);
    for (const study::SizeEstimate& size : look.sizes) {
      out += fmt::format("  {}: {} {}{}\n", size.name, size_words(size.size_m, style), style.glyphs.plus_minus,
                         percent(size.error_share));
    }
  }
  if (!look.effects.empty()) {
    out += heading("What to light, first things first", style);
    for (const study::Effect& effect : look.effects) {
      out += paragraph(fmt::format("  {}. ", effect.rank),
                       fmt::format("{}: {}. {} to {} lights. {}.", effect.feature, effect.technique, effect.lamps_low,
                                   effect.lamps_high, effect.reason),
                       style.width);
    }
  }
  std::vector<std::string> eyes;
  for (const study::Eye& eye : look.eyes) eyes.push_back(fmt::format("\"{}\": {}.", eye.name, eye.reason));
  add_list(out, "Who must not be dazzled", eyes, style);
  add_list(out, "Please tell or send", look.asks, style);
  if (look.price_high_minor > 0) {
    out += heading("Price band", style);
    out += paragraph(
        "  ",
        fmt::format("{} to {} USD. {}", look.price_low_minor / 100, look.price_high_minor / 100, look.price_basis),
        style.width);
  }
  return out;
}

}  // namespace duskwire::cli
