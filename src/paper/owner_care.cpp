// SPDX-License-Identifier: Apache-2.0
// Of the owner's pack: care, warranty, readings, and how a light is added.
#include <fmt/format.h>

#include <algorithm>

#include "paper/amounts.hpp"
#include "paper/owner_paper.hpp"
#include "study/wording.hpp"

namespace duskwire::paper {
namespace {

// The day that warranties count from.
std::string handed_over(const job::Job& job) {
  for (const job::VisitKind kind : {job::VisitKind::hand_over, job::VisitKind::commissioning}) {
    for (const job::Visit& visit : job.visits) {
      if (visit.kind == kind) return visit.date.substr(0, 10);
    }
  }
  return "";
}

// The last visit at which something was read.
const job::Visit* last_read(const job::Job& job) {
  const job::Visit* last = nullptr;
  for (const job::Visit& visit : job.visits) {
    if (!visit.readings.empty() && (last == nullptr || visit.date >= last->date)) last = &visit;
  }
  return last;
}

std::string read_at(const job::Visit* visit, const std::string& place, const std::string& unit) {
  if (visit == nullptr) return "";
  for (const job::Reading& reading : visit->readings) {
    if (reading.place == place && reading.unit == unit && reading.value) {
      return fmt::format("{:.2f} {}", *reading.value, unit);
    }
  }
  return "";
}

}  // namespace

Blocks care_blocks() {
  // Common practice of the trade, no source: once or twice a year.
  Table table;
  table.columns = {{"When"}, {"What"}, {"By"}};
  const auto row = [&](const char* when, const char* what, const char* by) {
    table.rows.push_back({{when, what, by}, RowKind::plain});
  };
  row("Each month", "Look round after dark: which lights are out, which lean, which does a plant hide?", "owner");
  row("Spring", "Clean lenses, straighten and aim, cut plants free, bury cable that frost has lifted.", "contractor");
  row("Spring",
      "Tighten terminals, test the receptacle\u2019s trip, read volts and amps and hold them against the record.",
      "contractor");
  row("Summer", "Keep mowers, edgers and aerators off lights and shallow cable. Show the map to gardeners.", "owner");
  row("Autumn", "Clear leaves from in-ground lights. Set timers that do not know the sun by themselves.", "owner");
  row("Each season", "Back out bolts and loosen ties of lights in trees, so that the bark can grow.", "contractor");
  row("When clocks change", "Look at the timer: is it on time on the first evening?", "owner");
  row("After a storm or a power cut",
      "Look at the receptacle\u2019s trip and the timer first. Some lights fail weeks after a lightning strike.",
      "owner");
  row("After digging or planting", "Look round after dark on the same evening.", "owner");
  return {Heading{1, "Care through the year"}, table};
}

Blocks warranty_blocks(const job::Job& job) {
  Blocks blocks{Heading{1, "Warranty"}};
  const std::string from = handed_over(job);
  if (!job.offer || job.offer->terms.warranties.empty()) {
    blocks.push_back(
        Callout{Tone::note, "No warranties were entered for this job. Ask the contractor for them in writing."});
    return blocks;
  }
  Table table;
  table.columns = {{"What"}, {"Years", Side::end}, {"Until"}};
  for (const job::Warranty& warranty : job.offer->terms.warranties) {
    const std::string until = years_on(from, warranty.years);
    table.rows.push_back(
        {{warranty.subject, fmt::format("{:g}", warranty.years), until.empty() ? "____________" : until},
         RowKind::plain});
  }
  blocks.push_back(std::move(table));
  blocks.push_back(Paragraph{from.empty() ? "Counted from hand-over: fill in the dates on that day."
                                          : "Counted from " + from + ", the day of hand-over.",
                             Voice::small});
  return blocks;
}

Blocks readings_blocks(const job::Job& job, const study::Report& report) {
  const job::Visit* visit = last_read(job);
  Table table;
  table.columns = {{"Place"},
                   {"Expected volts", Side::end},
                   {"Expected amps", Side::end},
                   {"Read volts", Side::end},
                   {"Read amps", Side::end}};
  for (const study::OutputReport& output : report.outputs) {
    table.rows.push_back(
        {{"Output " + output.id, fmt::format("{:.2f} V", output.terminal_v), fmt::format("{:.2f} A", output.current_a),
          read_at(visit, output.id, "V"), read_at(visit, output.id, "A")},
         RowKind::plain});
    // The farthest lamp says most of a run.
    const study::LampReport* low = nullptr;
    for (const study::LampReport& lamp : report.lamps) {
      if (lamp.output == output.id && (low == nullptr || lamp.nominal_v < low->nominal_v)) low = &lamp;
    }
    if (low != nullptr) {
      table.rows.push_back({{"Lowest lamp of it, " + low->id, fmt::format("{:.2f} V", low->nominal_v), "",
                             read_at(visit, low->id, "V"), ""},
                            RowKind::plain});
    }
  }
  Blocks blocks{
      Heading{1, "Readings"},
      Paragraph{visit == nullptr
                    ? "Nothing has been read yet. The columns at the right are for the first reading, with all "
                      "lights on for a quarter of an hour."
                    : "Read on " + visit->date.substr(0, 10) + (visit->by.empty() ? "" : " by " + visit->by) +
                          (visit->meter.empty() ? "." : " with " + visit->meter + ".")}};
  blocks.push_back(std::move(table));
  blocks.push_back(Callout{
      Tone::estimate,
      "Expected values are calculated for mains as rated and cable at 20 \u00b0C. They move with both. The signed "
      "readings are the record."});
  return blocks;
}

Blocks adding_blocks(const job::Job& job, const study::Report& report) {
  Blocks blocks{Heading{1, "How to add a light"},
                List{{"Choose the run that passes closest, and see in the table whether it has room.",
                      "Add up volt-amperes, not watts. A 4 W light may take 5.5 VA.",
                      "Have the whole run calculated again before anything is bought: one more light lowers the volts "
                      "of all others.",
                      "Join in a connector that is made for the ground and for those wires, next to a light or at a "
                      "measured place.",
                      "Enter the joint in the map with two tape lengths and its depth, and read volts and amps again."},
                     Mark::number}};
  Table table;
  table.columns = {{"Transformer"},
                   {"Output"},
                   {"Amps, worst", Side::end},
                   {"Limit", Side::end},
                   {"Room left on the transformer", Side::end}};
  for (const study::TransformerReport& transformer : report.transformers) {
    // As far as this shop loads a transformer.
    const double room_va =
        std::max(0.0, transformer.rating_va * job.practice.transformer_load_pct / 100 - transformer.worst_load_va);
    for (const study::OutputReport& output : report.outputs) {
      if (output.transformer != transformer.id) continue;
      table.rows.push_back({{transformer.id, output.id, fmt::format("{:.1f} A", output.worst_current_a),
                             fmt::format("{:g} A", output.limit_a), fmt::format("{:.0f} VA", room_va)},
                            RowKind::plain});
    }
  }
  if (!table.rows.empty()) {
    blocks.push_back(std::move(table));
    blocks.push_back(
        Callout{Tone::estimate, "Room is calculated. It does not say that the volts at a new light will do."});
  }
  return blocks;
}

}  // namespace duskwire::paper
