// SPDX-License-Identifier: Apache-2.0
#include "cli/locate_page.hpp"

#include <fmt/format.h>

#include <cmath>
#include <set>

#include "cli/quantity.hpp"
#include "cli/table.hpp"
#include "cli/text_width.hpp"

namespace duskwire::cli {
namespace {

using diagnosis::Verdict;

Ink ink_of_verdict(Verdict verdict) {
  switch (verdict) {
    case Verdict::sound:
      return Ink::good;
    case Verdict::misfit:
      return Ink::bad;
    case Verdict::located:
    case Verdict::narrowed:
      return Ink::caution;
    case Verdict::no_readings:
      break;
  }
  return Ink::plain;
}

std::string bar(double chance, const TextStyle& style) {
  constexpr int cells = 10;
  const int full = static_cast<int>(std::lround(chance * cells));
  std::string out;
  for (int k = 0; k < cells; ++k) out += k < full ? style.glyphs.full : style.glyphs.empty;
  return out;
}

std::string chance_words(double chance) {
  if (chance < 0.01) return "<1 %";
  // Likelihoods are not certainty, however much the readings agree.
  if (chance > 0.99) return ">99 %";
  return fmt::format("{:.0f} %", 100 * chance);
}

std::string causes(const study::Located& located, const TextStyle& style) {
  Table table({{"chance", Align::right}, {""}, {"what", Align::left, true, 24}});
  for (const study::LocatedCause& cause : located.causes) {
    table.add({{chance_words(cause.chance), Ink::strong}, {bar(cause.chance, style)}, {cause.text}});
  }
  return table.text(style);
}

// Of the causes that are worth a test: the likeliest, and what runs it close.
std::string tests(const study::Located& located, const TextStyle& style) {
  constexpr std::size_t most = 3;
  constexpr double worth = 0.05;
  std::string out;
  std::set<std::string> told;
  for (const study::LocatedCause& cause : located.causes) {
    if (cause.test.empty() || cause.chance < worth || told.size() >= most) continue;
    if (told.insert(cause.test).second) out += paragraph("  - ", cause.test, style.width);
  }
  return out;
}

std::string minutes(double effort_min) {
  if (effort_min < 90) return fmt::format("{:.0f} min", effort_min);
  return fmt::format("{:.1f} h", effort_min / 60);
}

std::string finding_again(const study::DigSpot& spot, const TextStyle& style) {
  std::string out;
  if (spot.offsets) {
    const auto tape = [&](const study::TapeOffset& one) {
      return fmt::format("{} from {}", length(one.distance_m, style), one.name.empty() ? one.point : one.name);
    };
    out += fmt::format("{} and {}{}.", tape(spot.offsets->first), tape(spot.offsets->second),
                       spot.offsets->measured ? " (taped)" : " (off the plan)");
  }
  if (spot.depth_m) out += fmt::format("{}{} deep.", out.empty() ? "" : " ", short_length(*spot.depth_m, style));
  if (!spot.pictures.empty()) {
    out += fmt::format("{}Open trench: {}.", out.empty() ? "" : " ", fmt::join(spot.pictures, ", "));
  }
  return out;
}

std::string dig_order(const study::Located& located, const TextStyle& style) {
  std::string out;
  int number = 0;
  std::set<std::string> told;
  for (const study::DigSpot& spot : located.dig_order) {
    if (number >= 5) break;
    const std::string lead = fmt::format("  {}. ", ++number);
    out += paragraph(lead,
                     fmt::format("{}: {}, about {}.", spot.text, chance_words(spot.chance), minutes(spot.effort_min)),
                     style.width);
    std::string places;
    for (const study::LocatedPlace& place : spot.places) {
      places += fmt::format("{}{} {}", places.empty() ? "" : ", ", place.text, chance_words(place.chance));
    }
    out += paragraph("     ", places + ".", style.width);
    const std::string again = finding_again(spot, style);
    if (!again.empty()) out += paragraph("     ", again, style.width);
    for (const std::string& caution : spot.cautions) {
      if (told.insert(caution).second)
        out += paragraph("     " + paint(style, Ink::caution, "! "), caution, style.width);
    }
  }
  return out;
}

std::string next_readings(const study::Located& located, const TextStyle& style) {
  std::string out;
  int number = 0;
  std::set<std::string> told;
  for (const study::NextToRead& next : located.next) {
    if (number >= 3) break;
    out += paragraph(fmt::format("  {}. ", ++number),
                     fmt::format("{} ({}, {:.1f} bit).", next.text, minutes(next.effort_min), next.information_bit),
                     style.width);
    for (const study::ForetoldOutcome& outcome : next.outcomes) {
      out += paragraph("     ", fmt::format("{}  {}", chance_words(outcome.chance), outcome.text), style.width);
    }
    for (const std::string& caution : next.cautions) {
      if (told.insert(caution).second)
        out += paragraph("     " + paint(style, Ink::caution, "! "), caution, style.width);
    }
  }
  if (located.half_split) {
    out += paragraph("  ", "Plain half-splitting would read: " + located.half_split->text + ".", style.width);
  }
  return out;
}

std::string compared(const study::Located& located, const TextStyle& style) {
  Table table({{"place"},
               {"reading", Align::left, true, 10},
               {"measured", Align::right},
               {"plan", Align::right},
               {"off by", Align::right},
               {style.glyphs.plus_minus, Align::right},
               {"", Align::left, true, 10}});
  for (const study::ComparedReading& one : located.compared) {
    const char* state = one.read_again ? "read again" : one.in_tolerance ? "in tolerance" : "off";
    const Ink ink = one.read_again || !one.in_tolerance ? Ink::caution : Ink::good;
    table.add({{one.place},
               {one.quantity},
               {fmt::format("{:.2f} {}", one.measured, one.unit)},
               {fmt::format("{:.2f}", one.predicted)},
               {fmt::format("{:+.2f}", one.difference)},
               {fmt::format("{:.2f}", one.tolerance)},
               {state, ink}});
  }
  return table.text(style);
}

std::string lines(const std::vector<std::string>& texts, const TextStyle& style) {
  std::string out;
  for (const std::string& text : texts) out += paragraph("  ", text, style.width);
  return out;
}

std::string room(const study::Located& located, const TextStyle& style) {
  std::string out;
  for (const study::RunRoom& one : located.room) {
    out += paragraph("  ",
                     fmt::format("{}: {} more at the far end of its run{}.", one.output, volt_amperes(one.room_va),
                                 one.limited_by.empty() ? "" : "; what gives way first is " + one.limited_by),
                     style.width);
  }
  return out;
}

std::string asides(const study::Located& located, const TextStyle& style) {
  std::string out;
  if (!located.unused.empty()) {
    out += heading("Readings put aside", style);
    for (const study::UnusedReading& one : located.unused) {
      out += paragraph("  ", fmt::format("{} {}: {}.", one.place, one.quantity, one.why), style.width);
    }
  }
  if (!located.drift.empty()) {
    out += heading("What has moved", style);
    for (const study::Drift& one : located.drift) out += paragraph("  ", one.text + ".", style.width);
  }
  if (!located.hidden.empty() || !located.unseen.empty()) {
    out += heading("What no reading would show", style) + lines(located.hidden, style);
    for (const study::Unseen& one : located.unseen) {
      out += paragraph("  ", one.text, style.width) + paragraph("     ", one.test, style.width);
    }
  }
  return out;
}

}  // namespace

std::string locate_text(const job::Job& job, const study::Located& located, const TextStyle& style) {
  std::string out = paragraph("", paint(style, ink_of_verdict(located.verdict), located.headline), style.width);
  out += paragraph("", fmt::format("{}{}.", job.title, located.visit.empty() ? "" : ", visit of " + located.visit),
                   style.width);
  if (!located.checks.empty()) out += heading("What to check", style) + lines(located.checks, style);
  if (!located.causes.empty()) out += heading("What may be wrong", style) + causes(located, style);
  const std::string by_hand = tests(located, style);
  if (!by_hand.empty()) out += heading("Tell it apart by hand", style) + by_hand;
  const bool asked = located.verdict != Verdict::sound;
  if (asked && !located.next.empty()) out += heading("Read next", style) + next_readings(located, style);
  if (asked && !located.dig_order.empty()) {
    out += heading("Where to look, by chance over effort", style) + dig_order(located, style);
  }
  if (!located.compared.empty()) out += heading("Readings beside the plan", style) + compared(located, style);
  out += asides(located, style);
  if (!located.room.empty()) out += heading("Room for more lamps", style) + room(located, style);
  out += heading("What this rests on", style) + lines(located.rests_on, style);
  return out + "\n" + lines(located.cautions, style);
}

}  // namespace duskwire::cli
