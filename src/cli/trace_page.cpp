// SPDX-License-Identifier: Apache-2.0
#include "cli/trace_page.hpp"

#include <fmt/format.h>

#include "cli/quantity.hpp"
#include "cli/table.hpp"
#include "cli/text_width.hpp"

namespace duskwire::cli {
namespace {

constexpr double sure = 0.9;

std::string chance_words(double chance) {
  if (chance < 0.01) return "<1 %";
  if (chance > 0.99) return ">99 %";
  return fmt::format("{:.0f} %", 100 * chance);
}

Cell chance_cell(double chance) { return {chance_words(chance), chance >= sure ? Ink::good : Ink::caution}; }

std::string lamps(const study::Traced& traced, const TextStyle& style) {
  Table table({{"lamp"}, {"run"}, {"chance", Align::right}, {"along", Align::right}, {"lead", Align::right}, {"or"}});
  for (const study::LampFound& lamp : traced.lamps) {
    const study::PlaceFound* place = nullptr;
    std::string other;
    for (const study::PlaceFound& one : lamp.places) {
      if (one.run == lamp.run && !place) place = &one;
      constexpr double worth = 0.05;
      if (one.run == lamp.run || one.chance < worth) continue;
      other += fmt::format("{}{} {}", other.empty() ? "" : ", ", one.run, chance_words(one.chance));
    }
    table.add({{lamp.id},
               {lamp.run.empty() ? "none walked" : lamp.run},
               chance_cell(lamp.chance),
               {place ? length(place->from_transformer_m, style) : ""},
               {place ? length(place->lead_m, style) : ""},
               {other}});
  }
  return table.text(style);
}

std::string runs(const study::Traced& traced, const TextStyle& style) {
  Table table({{"run"},
               {"lamps", Align::right},
               {"all right", Align::right},
               {"clamped", Align::right},
               {"its lamps", Align::right},
               {"cable", Align::left, true, 14},
               {"chance", Align::right}});
  for (const study::RunFound& run : traced.runs) {
    const bool told = !run.cables.empty() && !run.lamps.empty();
    table.add({{run.id},
               {std::to_string(run.lamps.size())},
               run.lamps.empty() ? Cell{""} : chance_cell(run.chance),
               {run.measured_a ? fmt::format("{:.2f} A", *run.measured_a) : ""},
               {fmt::format("{:.2f} A", run.expected_a)},
               {told ? run.cables.front().title : ""},
               told ? chance_cell(run.cables.front().chance) : Cell{""}});
  }
  return table.text(style);
}

std::string parts(const study::Traced& traced, const TextStyle& style) {
  Table table({{"cable"},
               {"from"},
               {"to"},
               {"walked", Align::right},
               {"carries", Align::right},
               {"feeds", Align::right},
               {"its end", Align::right}});
  for (const study::RunFound& run : traced.runs) {
    for (const study::PartFound& part : run.parts) {
      table.add({{part.cable},
                 {part.from},
                 {part.to},
                 {length(part.length_m, style)},
                 {fmt::format("{:.2f} A", part.current_a)},
                 chance_cell(part.chance),
                 chance_cell(part.end_chance)});
    }
  }
  return table.text(style);
}

std::string lines(const std::vector<std::string>& texts, const TextStyle& style) {
  std::string out;
  for (const std::string& text : texts) out += paragraph("  ", text, style.width);
  return out;
}

}  // namespace

std::string trace_text(const TracePage& page, const TextStyle& style) {
  const study::Traced& traced = page.traced;
  std::string out = paragraph("", paint(style, Ink::strong, traced.headline), style.width);
  out += paragraph("", page.job.title + ".", style.width);
  out += heading("Which lamp hangs where", style) + lamps(traced, style);
  out += heading("Runs", style) + runs(traced, style);
  out += heading("The rough network, part by part", style) + parts(traced, style);
  if (!traced.remarks.empty()) out += heading("What does not fit", style) + lines(traced.remarks, style);
  if (!traced.problems.empty()) {
    out += heading("What the walk leaves open", style);
    for (const Problem& problem : traced.problems) out += paragraph("  ", problem.message, style.width);
  }
  if (!traced.next.empty()) {
    out += heading("What would tell most", style);
    for (const study::TraceStep& step : traced.next) {
      out += paragraph("  ", fmt::format("{} ({:.1f} bit at most)", step.text, step.information_bit), style.width);
    }
  }
  out += heading("What this rests on", style) + lines(traced.rests_on, style);
  if (!page.is_written)
    out += "\n" + paragraph("", "With --output the rough network is written as a job.", style.width);
  return out;
}

}  // namespace duskwire::cli
