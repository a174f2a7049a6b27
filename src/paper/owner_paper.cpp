// SPDX-License-Identifier: Apache-2.0
#include "paper/owner_paper.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "paper/plan_drawing.hpp"
#include "paper/plan_symbols.hpp"
#include "paper/text_sections.hpp"
#include "study/wording.hpp"

namespace duskwire::paper {
namespace {

// The first date of a kind of visit; empty where there was none.
std::string visited(const job::Job& job, job::VisitKind kind) {
  for (const job::Visit& visit : job.visits) {
    if (visit.kind == kind) return visit.date.substr(0, 10);
  }
  return "";
}

Blocks first_page(const PaperWish& wish, const job::Job& job, const std::string& title) {
  Facts facts;
  const auto add = [&](const char* name, const std::string& value) {
    if (!value.empty()) facts.facts.emplace_back(name, value);
  };
  add("Garden", job.site.address.empty() ? garden_of(job) : job.site.address);
  add("Owner", job.client.name);
  add("Installed by", wish.shop);
  add("Handed over", visited(job, job::VisitKind::hand_over));
  add("State of this paper", wish.date);
  add("Lights", std::to_string(job.luminaires.size()));
  add("Transformers", std::to_string(job.transformers.size()));
  return {
      Heading{0, title}, facts,
      Paragraph{
          "Keep this with the papers of the house and a copy in the cover of the transformer. Whoever digs, plants or "
          "repairs here should see the map first. Whoever buys the house should get all of it."},
      Contents{}};
}

std::string place_words(const std::optional<study::TapeOffsets>& offsets, job::DisplayUnits units) {
  if (!offsets) return "\u2013";
  const auto unit = study::distance_unit(units);
  const auto one = [&](const study::TapeOffset& offset) {
    return study::worded(offset.distance_m, unit, 1) + " from " + (offset.name.empty() ? offset.point : offset.name);
  };
  return one(offsets->first) + ", " + one(offsets->second) + (offsets->measured ? "" : " (off the plan)");
}

Blocks places(const PaperWish& wish, const job::Job& job, const OwnerParts& parts) {
  Blocks blocks{
      Heading{1, "What lies where"},
      Paragraph{"Two tape lengths from two fixed points find a place again. \u201cOff the plan\u201d means that nobody "
                "measured it before the trench was closed."}};
  Table table;
  table.columns = {{"Joint"}, {"Kind"}, {"Where"}, {"Cover", Side::end}};
  for (const study::CrewJoint& joint : parts.joints) {
    table.rows.push_back({{study::called(joint.id, joint.name), joint.kind ? words_of(*joint.kind) : "\u2013",
                           place_words(joint.offsets, wish.units),
                           joint.depth_m ? study::worded(*joint.depth_m, study::depth_unit(wish.units)) : "\u2013"},
                          RowKind::plain});
  }
  if (table.rows.empty()) return {};
  blocks.push_back(std::move(table));
  Table transformers;
  transformers.columns = {{"Transformer"}, {"Rating", Side::end}, {"Plugged in at"}, {"Lights on it", Side::end}};
  for (const job::Transformer& transformer : job.transformers) {
    const job::TransformerItem* item = job::find_transformer(job.catalogue, transformer.item);
    std::uint32_t lamps = 0;
    for (const study::OutputReport& output : parts.report.outputs)
      lamps += output.transformer == transformer.id ? output.lamp_count : 0;
    transformers.rows.push_back({{study::called(transformer.id, transformer.name),
                                  item == nullptr ? "" : fmt::format("{:.0f} VA", item->rating_va),
                                  transformer.receptacle, std::to_string(lamps)},
                                 RowKind::plain});
  }
  blocks.push_back(std::move(transformers));
  return blocks;
}

Table months_table(const TimerCard& card, std::size_t from, std::size_t to) {
  Table table;
  table.caption =
      "On the 11th of each month by the clock on the wall, or on the nearest day on which the entry runs. A dash: it "
      "does not run that month.";
  table.columns = {{"Month"}, {"Sunset", Side::end}};
  for (std::size_t i = from; i < to; ++i) table.columns.push_back({card.entries[i], Side::end});
  for (const TimerMonth& month : card.months) {
    Row row{{month.month, month.sunset}, RowKind::plain};
    row.cells.insert(row.cells.end(), month.spans.begin() + static_cast<std::ptrdiff_t>(from),
                     month.spans.begin() + static_cast<std::ptrdiff_t>(to));
    table.rows.push_back(std::move(row));
  }
  return table;
}

Blocks timer(const std::optional<TimerCard>& card) {
  Blocks blocks{Heading{1, "Timer card"}};
  if (!card) {
    blocks.push_back(Callout{Tone::note, "No switching programme was entered. Write down how the timer is set."});
    blocks.push_back(WritingLines{4});
    return blocks;
  }
  blocks.push_back(Paragraph{card->programme});
  // As many entries beside each other as a sheet is wide.
  constexpr std::size_t most_beside = 5;
  for (std::size_t from = 0; from < card->entries.size(); from += most_beside) {
    blocks.push_back(months_table(*card, from, std::min(from + most_beside, card->entries.size())));
  }
  if (!card->remark.empty()) blocks.push_back(Paragraph{card->remark, Voice::small});
  if (card->burn_h_per_year > 0) {
    blocks.push_back(Callout{Tone::estimate, fmt::format("About {:.0f} hours and {:.0f} kWh a year.",
                                                         card->burn_h_per_year, card->energy_kwh_per_year)});
  }
  return blocks;
}

void append(Blocks& to, Blocks from) {
  for (Block& block : from) to.push_back(std::move(block));
}

}  // namespace

Document owner_paper(const PaperWish& wish, const job::Job& job, const OwnerParts& parts) {
  const std::string title = "Owner\u2019s pack: " + garden_of(job);
  Document paper = frame_of(wish, job, "Owner\u2019s pack", title);
  Section text = text_section(wish.size);
  text.blocks = first_page(wish, job, title);
  append(text.blocks, {Heading{1, "Cautions"}, cautions_for_owners()});
  append(text.blocks, timer(parts.timer));
  append(text.blocks, care_blocks());
  append(text.blocks, warranty_blocks(job));
  append(text.blocks, readings_blocks(job, parts.report));
  append(text.blocks, adding_blocks(job, parts.report));
  append(text.blocks, places(wish, job, parts));
  paper.sections.push_back(std::move(text));
  PlanLook look;
  look.note = "Before you dig: cables lie close to these lines, not exactly on them.";
  if (auto map = plan_section(job, look, wish.units, wish.size, paper, "Map of what lies in the ground")) {
    paper.sections.push_back(*std::move(map));
  }
  return paper;
}

}  // namespace duskwire::paper
