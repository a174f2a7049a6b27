// SPDX-License-Identifier: Apache-2.0
#include "cli/advise_page.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "cli/check_page.hpp"
#include "cli/names.hpp"
#include "cli/quantity.hpp"
#include "cli/table.hpp"
#include "cli/text_width.hpp"

namespace duskwire::cli {
namespace {

constexpr int margin_cells = 4;

struct Mark {
  std::string text;
  Ink ink = Ink::plain;
};

// What is in the job and what is advised, in words.
Mark mark_of(bool present, bool chosen, bool fits) {
  if (present && chosen) return {"keep", Ink::good};
  if (chosen) return {"take", Ink::good};
  if (present) return {"as it is", fits ? Ink::plain : Ink::bad};
  return {"", Ink::plain};
}

// "refused: ..." without the word, which has a column of its own.
std::string reason_of(const study::TransformerChoice& choice) {
  const std::string word = "refused: ";
  return choice.reason.rfind(word, 0) == 0 ? choice.reason.substr(word.size()) : choice.reason;
}

// Why a tap that would do was not taken is in the sentence above the table; why one fails stands beside it.
std::string taps_of(const study::TapAdvice& advice, const TextStyle& style) {
  std::string out =
      paragraph("  " + paint(style, Ink::strong, advice.output) + "  ", advice.reason, style.width, margin_cells);
  Table table({{"tap", Align::right},
               {""},
               {"lowest", Align::right},
               {"lamp"},
               {"highest", Align::right},
               {"lamp"},
               {"", Align::left, true, 16}});
  for (const study::TapVerdict& tap : advice.taps) {
    const Mark mark = mark_of(tap.present, tap.chosen, tap.fits);
    table.add({{fmt::format("{:g} V", tap.tap_v)},
               {mark.text, mark.ink},
               {volts(tap.lowest_v), tap.low_room_v < 0 ? Ink::bad : Ink::plain},
               {tap.lowest_lamp},
               {volts(tap.highest_v), tap.high_room_v < 0 ? Ink::bad : Ink::plain},
               {tap.highest_lamp},
               {tap.fits ? "" : tap.reason, Ink::bad}});
  }
  return out + table.text(style, margin_cells);
}

// What was refused, what is there, what is advised; of those that would do as well, only how many there are.
std::string transformer_of(const study::TransformerAdvice& advice, const Names& names, const TextStyle& style) {
  const std::string title = advice.transformer.empty() ? "" : names.called(advice.transformer) + ": ";
  std::string out = paragraph("  " + paint(style, Ink::strong, title), advice.reason, style.width, margin_cells);
  Table table({{""}, {"", Align::right}, {""}, {"", Align::left, true, 20}});
  std::size_t others = 0;
  for (const study::TransformerChoice& choice : advice.choices) {
    if (choice.fits && !choice.present && !choice.chosen) {
      ++others;
      continue;
    }
    const Mark mark = choice.fits ? mark_of(choice.present, choice.chosen, true) : Mark{"refused", Ink::bad};
    table.add({{choice.item}, {volt_amperes(choice.rating_va)}, {mark.text, mark.ink}, {reason_of(choice)}});
  }
  out += table.text(style, margin_cells);
  if (others > 0) out += paragraph("    ", fmt::format("{} more would carry it too.", others), style.width);
  return out;
}

std::string protection_of(const study::Advice& advice, const TextStyle& style) {
  Table table({{"output"},
               {"device", Align::right},
               {"carries", Align::right},
               {"far short", Align::right},
               {"at"},
               {"advice", Align::left, true, 20}});
  for (const study::ProtectionAdvice& entry : advice.protection) {
    table.add(
        {{entry.output},
         {entry.limit_a > 0 ? fmt::format("{:g} A", entry.limit_a) : "none", entry.limit_a > 0 ? Ink::plain : Ink::bad},
         {amps(entry.worst_current_a)},
         {amps(entry.far_short_a), entry.trips ? Ink::plain : Ink::bad},
         {entry.far_short_at},
         {entry.reason, entry.trips ? Ink::plain : Ink::bad}});
  }
  return table.text(style);
}

std::string verdict(const study::Advice& advice, const TextStyle& style) {
  const auto tap_changes = std::count_if(advice.taps.begin(), advice.taps.end(),
                                         [](const auto& tap) { return !tap.changes.empty() || !tap.chosen_tap_v; });
  const auto unit_changes = std::count_if(advice.transformers.begin(), advice.transformers.end(), [](const auto& unit) {
    return !unit.changes.empty() || unit.chosen_item.empty();
  });
  const auto blind =
      std::count_if(advice.protection.begin(), advice.protection.end(), [](const auto& p) { return !p.trips; });
  const auto part = [](auto count, const std::string& thing, const std::string& what) {
    return count == 0 ? fmt::format("{} as they are", thing) : fmt::format("{} {}", count, what);
  };
  return paragraph(
      "",
      fmt::format(
          "Advice: {}; {}; {}.", part(tap_changes, "taps", tap_changes == 1 ? "tap to change" : "taps to change"),
          part(unit_changes, "transformers", unit_changes == 1 ? "transformer to look at" : "transformers to look at"),
          part(blind, "protection",
               blind == 1 ? "output whose far short would not trip" : "outputs whose far short would not trip")),
      style.width);
}

}  // namespace

bool is_served(const study::Advice& advice) {
  return std::all_of(advice.taps.begin(), advice.taps.end(),
                     [](const auto& tap) { return tap.chosen_tap_v.has_value(); }) &&
         std::all_of(advice.transformers.begin(), advice.transformers.end(),
                     [](const auto& unit) { return !unit.chosen_item.empty(); });
}

std::string advice_text(const job::Job& job, const study::Advice& advice, const TextStyle& style) {
  const Names names(job);
  std::string out = verdict(advice, style);
  if (!advice.taps.empty()) out += heading("Taps  (volts at worst, over mains, cable temperature and length)", style);
  for (std::size_t i = 0; i < advice.taps.size(); ++i) out += (i > 0 ? "\n" : "") + taps_of(advice.taps[i], style);
  if (!advice.transformers.empty()) out += heading("Transformers", style);
  for (std::size_t i = 0; i < advice.transformers.size(); ++i) {
    out += (i > 0 ? "\n" : "") + transformer_of(advice.transformers[i], names, style);
  }
  if (!advice.protection.empty()) out += heading("Protection", style) + protection_of(advice, style);
  return out + "\n" + cautions(style);
}

}  // namespace duskwire::cli
