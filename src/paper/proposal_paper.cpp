// SPDX-License-Identifier: Apache-2.0
#include "paper/proposal_paper.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "paper/amounts.hpp"
#include "paper/furniture.hpp"
#include "paper/plan_drawing.hpp"
#include "paper/text_sections.hpp"

namespace duskwire::paper {
namespace {

constexpr double largest_plan_mm = 165;

Blocks first_page(const PaperWish& wish, const job::Job& job, const ProposalParts& parts, const TitleBlock& block) {
  Facts facts;
  const auto add = [&](const char* name, const std::string& value) {
    if (!value.empty()) facts.facts.emplace_back(name, value);
  };
  add("For", job.client.name);
  add("Garden", job.site.address);
  add("From", wish.shop);
  add("Made by", wish.made_by);
  add("Number", block.number);
  add("Date", wish.date);
  if (job.offer && job.offer->terms.valid_days) {
    add("Valid until", days_on(wish.date, static_cast<int>(*job.offer->terms.valid_days)));
  }
  Blocks blocks{Heading{0, block.title}, facts};
  if (parts.price) {
    blocks.push_back(
        Paragraph{fmt::format("{} lights, {} in all{}. How it is made up stands under \u201cPrice\u201d.",
                              job.luminaires.size(), money_words(parts.price->total_minor, parts.price->currency),
                              parts.price->tax_minor > 0 ? ", tax included" : ""),
                  Voice::strong});
  }
  return blocks;
}

void add_pictures(Blocks& blocks, const std::vector<Picture>& nights) {
  for (Picture night : nights) {
    night.max_height_mm = std::min(night.max_height_mm, 130.0);
    blocks.push_back(std::move(night));
  }
  if (nights.empty()) return;
  blocks.push_back(
      Callout{Tone::estimate,
              "The picture is calculated from a daylight photograph, the lamps' light and their places. It is "
              "an impression, not a promise: the built garden will differ."});
}

void add_wishes(Blocks& blocks, const job::Job& job) {
  if (job.client.wishes.empty()) return;
  List wishes;
  for (const job::Wish& wish : job.client.wishes) wishes.items.push_back(wish.text);
  blocks.push_back(Heading{1, "What you asked for"});
  blocks.push_back(std::move(wishes));
}

std::string what_it_does(const study::CrewAim& aim, job::DisplayUnits units) {
  std::string text = study::lights_in_words(aim, units);
  if (!text.empty()) text = "Lights " + text + ".";
  if (!aim.name.empty()) text = aim.name + (text.empty() ? "." : ". ") + text;
  if (aim.shield_cut_off_deg) text += " Shielded, so that the lamp itself is not seen from the side.";
  return text;
}

Table lights_table(const PaperWish& wish, const job::Job& job, const std::vector<study::CrewAim>& aims) {
  Table table;
  table.columns = {{"Light"}, {"Kind"}, {"What it does"}, {"Light output", Side::end}, {"Colour", Side::end}};
  // Zones in the order in which the job names them.
  std::vector<std::string> zones;
  for (const study::CrewAim& aim : aims) {
    if (std::find(zones.begin(), zones.end(), aim.zone) == zones.end()) zones.push_back(aim.zone);
  }
  for (const std::string& zone : zones) {
    if (zones.size() > 1) table.rows.push_back({{zone.empty() ? "Elsewhere" : zone}, RowKind::group});
    for (std::size_t i = 0; i < aims.size(); ++i) {
      const study::CrewAim& aim = aims[i];
      if (aim.zone != zone) continue;
      const auto lamp = std::find_if(job.luminaires.begin(), job.luminaires.end(),
                                     [&](const job::Luminaire& each) { return each.id == aim.id; });
      const job::LuminaireItem* item =
          lamp == job.luminaires.end() ? nullptr : job::find_luminaire(job.catalogue, lamp->item);
      table.rows.push_back({{aim.id, aim.title, what_it_does(aim, wish.units),
                             item == nullptr ? "" : fmt::format("{:.0f} lm", item->flux_lm * aim.dim_pct / 100),
                             item == nullptr ? "" : fmt::format("{:.0f} K", item->colour_temperature_k)},
                            RowKind::plain});
    }
  }
  return table;
}

void add_plan(Blocks& blocks, const PaperWish& wish, const job::Job& job, double width_mm) {
  std::optional<Plan> plan = plan_drawing(job, plan_for_client(), wish.units, width_mm, largest_plan_mm);
  if (!plan) return;
  blocks.push_back(Heading{1, "Where the lights stand"});
  plan->drawing.caption =
      "Places are as planned. They may move by a step or two on the night of the visit, when the effect is seen.";
  blocks.push_back(std::move(plan->drawing));
}

}  // namespace

Document proposal_paper(const PaperWish& wish, const job::Job& job, const ProposalParts& parts) {
  const std::string title = "Lighting proposal: " + garden_of(job);
  Document paper = frame_of(wish, job, "Proposal", title);
  if (wish.number.empty() && job.offer && !job.offer->number.empty()) paper.title.number = job.offer->number;
  Section section = text_section(wish.size);
  const double width_mm = area_above_foot(section, paper).width_mm;
  Blocks& blocks = section.blocks;
  blocks = first_page(wish, job, parts, paper.title);
  add_pictures(blocks, parts.nights);
  add_wishes(blocks, job);
  if (!parts.aims.empty()) {
    blocks.push_back(Heading{1, "What each light does"});
    blocks.push_back(lights_table(wish, job, parts.aims));
    blocks.push_back(Callout{Tone::estimate,
                             "Light levels and glare are calculated and indicative. Steps and exits are looked at once "
                             "more at night, when the lights are there."});
  }
  add_plan(blocks, wish, job, width_mm);
  for (Block& block : price_blocks(wish, job, parts.price)) blocks.push_back(std::move(block));
  for (Block& block : terms_blocks(wish, job, parts.price)) blocks.push_back(std::move(block));
  paper.sections.push_back(std::move(section));
  return paper;
}

}  // namespace duskwire::paper
