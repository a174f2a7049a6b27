// SPDX-License-Identifier: Apache-2.0
#include "cli/ask_page.hpp"

#include <fmt/format.h>

#include "cli/check_page.hpp"
#include "cli/quantity.hpp"
#include "cli/table.hpp"
#include "cli/text_width.hpp"
#include "cli/volt_bar.hpp"

namespace duskwire::cli {
namespace {

constexpr int bar_cells = 31;

std::string cable_name(const job::CableItem& item) { return conductor_size({item.area_mm2, item.gauge_awg}); }

std::string layout_words(const study::Question& question, const study::Answer& answer, const TextStyle& style) {
  const std::string length_text = length(answer.length_m, style);
  switch (question.spread) {
    case study::Spread::chain:
      return fmt::format("spread evenly over {}", length_text);
    case study::Spread::end:
      return fmt::format("all at the end of {}", length_text);
    case study::Spread::hub:
      return fmt::format("on a hub at the end of {}, leads of {}", length_text, length(question.lead_length_m, style));
    case study::Spread::tee:
      break;
  }
  return fmt::format("on two arms of a tee, {} to the last", length_text);
}

std::string growth(double factor, bool beyond) {
  if (beyond) return "many times over";
  return factor <= 0 ? "not at all" : fmt::format("by {}", percent(factor - 1));
}

std::string figures(const study::Question& question, const study::Answer& answer, const TextStyle& style) {
  Table table({{""}, {"", Align::left, true, 20}});
  const auto row = [&](const std::string& label, const std::string& text) { table.add({{label, Ink::faint}, {text}}); };
  const VoltSpan span{answer.last_v, answer.worst_low_v, answer.worst_high_v, question.window_min_v,
                      question.window_max_v};
  row("lamps", fmt::format("{} of {:g} W, {:.3g} VA each, {}", answer.lamps, question.lamp_w,
                           question.lamp_w / question.power_factor, layout_words(question, answer, style)));
  row("from", fmt::format("{:g} V tap, {}", answer.tap_v, cable_name(answer.cable)));
  table.add({{"last lamp", Ink::faint},
             {fmt::format("{}  {}", volts(answer.last_v), volt_bar(span, bar_cells, style)), Ink::plain, true}});
  row("at worst", fmt::format("{} to {} over all lamps; window {:g} to {:g} V", volts(answer.worst_low_v),
                              volts(answer.worst_high_v), question.window_min_v, question.window_max_v));
  row("first lamp", volts(answer.first_v));
  row("load", fmt::format("{}, {} at the tap", amps(answer.current_a), volt_amperes(answer.load_va)));
  row("could grow", fmt::format("loads {}, length {}", growth(answer.load_margin, answer.load_beyond_cap),
                                growth(answer.length_margin, answer.length_beyond_cap)));
  row("short at end", fmt::format("{}: a device for more than that would not trip", amps(answer.short_a)));
  return table.text(style);
}

std::string tries(const study::Answer& answer, const TextStyle& style) {
  Table table({{answer.asked == study::Asked::tap ? "tap" : "cable"}, {"last lamp", Align::right}, {"at worst"}, {""}});
  for (const study::Tried& tried : answer.tried) {
    table.add({{answer.asked == study::Asked::tap ? fmt::format("{:g} V", tried.value) : tried.name},
               {volts(tried.last_v)},
               {number(tried.worst_low_v, 2) + style.glyphs.dash + number(tried.worst_high_v, 2)},
               {tried.holds ? "holds" : "does not hold", tried.holds ? Ink::good : Ink::bad}});
  }
  return "\n" + paint(style, Ink::strong, "Tried") + "\n" + table.text(style);
}

}  // namespace

std::string answer_text(const study::Question& question, const study::Answer& answer, const TextStyle& style) {
  const bool good = answer.found && answer.holds;
  std::string out =
      paragraph("", paint(style, good ? Ink::good : Ink::bad, good ? "Holds. " : "Does not hold. ") + answer.sentence,
                style.width);
  out += "\n" + figures(question, answer, style);
  if (!answer.tried.empty()) out += tries(answer, style);
  out += "\n" +
         paragraph("",
                   fmt::format("Reckoned with mains {}{:g} %, cable at {}, {:g} ohm in the transformer, every lamp on.",
                               style.glyphs.plus_minus, question.mains_tolerance_pct,
                               temperature(question.cable_c, style), question.source_ohm),
                   style.width);
  return out + cautions(style);
}

}  // namespace duskwire::cli
