// SPDX-License-Identifier: Apache-2.0
// The money and the terms of a proposal. What the job does not say is left open or comes from a template that says so.
#include <fmt/format.h>

#include <cmath>

#include "paper/amounts.hpp"
#include "paper/proposal_paper.hpp"
#include "paper/text_sections.hpp"

namespace duskwire::paper {
namespace {

Table options_table(const OfferedPrice& price) {
  Table table;
  table.columns = {{"Choose"}, {"Option"}, {"What it holds"}, {"Lights", Side::end}, {"Price", Side::end}};
  for (const OfferedOption& option : price.options) {
    const std::string lights = option.luminaires.empty() ? "" : std::to_string(option.luminaires.size());
    table.rows.push_back({{option.chosen ? "[x]" : "[  ]", option.title,
                           option.text + (option.kind.empty() ? "" : " (" + option.kind + ")"), lights,
                           money_words(option.total_minor, price.currency)},
                          RowKind::plain});
  }
  return table;
}

Table price_table(const OfferedPrice& price) {
  Table table;
  table.columns = {{"What"}, {"Price", Side::end}};
  for (const auto& [name, minor] : price.groups) {
    table.rows.push_back({{name, money_words(minor, price.currency)}, RowKind::plain});
  }
  if (price.tax_minor != 0) {
    table.rows.push_back({{"Before tax", money_words(price.net_minor, price.currency)}, RowKind::sum});
    table.rows.push_back(
        {{price.tax_name.empty() ? "Tax" : price.tax_name, money_words(price.tax_minor, price.currency)},
         RowKind::plain});
  }
  table.rows.push_back({{"In all", money_words(price.total_minor, price.currency)}, RowKind::sum});
  return table;
}

List what_may_change() {
  return {{"Rock, roots or old lines in the ground where a trench was planned.",
           "A walk or a drive that has to be crossed and has no sleeve.",
           "Lights that are added, moved or taken away after signing, also on the night of the visit. Each change is "
           "priced and signed before it is built.",
           "A receptacle, a circuit or other mains work that turns out to be needed.",
           "Goods whose price rises after this offer has run out."},
          Mark::bullet};
}

List usual_exclusions() {
  return {{"Work on the mains side: receptacles, circuits, breakers, and permits for them.",
           "Repair of irrigation, fences or other private lines that were not shown to us.",
           "Breaking and mending of paving, concrete or walls.", "Planting and turf beyond closing our own trenches.",
           "Upkeep after hand-over, unless a care visit is agreed."},
          Mark::bullet};
}

Table warranty_table(const std::vector<job::Warranty>& warranties) {
  Table table;
  table.columns = {{"What"}, {"Years", Side::end}};
  for (const job::Warranty& warranty : warranties) {
    table.rows.push_back({{warranty.subject, fmt::format("{:g}", warranty.years)}, RowKind::plain});
  }
  return table;
}

Table payment_table(const OfferedPrice& price) {
  Table table;
  table.columns = {{"When"}, {"Amount", Side::end}};
  if (price.deposit_minor > 0) {
    table.rows.push_back({{"At signing", money_words(price.deposit_minor, price.currency)}, RowKind::plain});
  }
  table.rows.push_back(
      {{"At hand-over, after the night visit", money_words(price.total_minor - price.deposit_minor, price.currency)},
       RowKind::plain});
  table.rows.push_back({{"In all", money_words(price.total_minor, price.currency)}, RowKind::sum});
  return table;
}

}  // namespace

Blocks price_blocks(const PaperWish&, const job::Job&, const std::optional<OfferedPrice>& price) {
  Blocks blocks{Heading{1, "Price"}};
  if (!price) {
    blocks.push_back(Callout{Tone::note, "The price follows. This paper shows what is planned."});
    return blocks;
  }
  blocks.push_back(price_table(*price));
  if (!price->options.empty()) {
    blocks.push_back(Heading{2, "Options"});
    blocks.push_back(options_table(*price));
    blocks.push_back(Callout{Tone::estimate,
                             "Options are priced as drawn: with the cable and the transformers that the plan shows for "
                             "their lights. A wiring planned for one of them alone may cost less."});
  }
  blocks.push_back(Heading{2, "What may change the price"});
  blocks.push_back(what_may_change());
  return blocks;
}

Blocks terms_blocks(const PaperWish& wish, const job::Job& job, const std::optional<OfferedPrice>& price) {
  Blocks blocks{Heading{1, "Not included"}};
  const job::Terms terms = job.offer ? job.offer->terms : job::Terms{};
  if (terms.exclusions.empty()) {
    blocks.push_back(usual_exclusions());
  } else {
    blocks.push_back(List{terms.exclusions, Mark::bullet});
  }
  if (price) {
    blocks.push_back(Heading{1, "Payment"});
    blocks.push_back(payment_table(*price));
    if (!price->deposit_rule.empty()) {
      blocks.push_back(Paragraph{"The deposit follows this rule: " + price->deposit_rule, Voice::small});
    }
  }
  if (!terms.warranties.empty()) {
    blocks.push_back(Heading{1, "Warranty"});
    blocks.push_back(warranty_table(terms.warranties));
    blocks.push_back(Paragraph{
        "Counted from hand-over. Lightning, digging by others and changes by others are not covered.", Voice::small});
  }
  blocks.push_back(Heading{1, "Terms"});
  blocks.push_back(
      Callout{Tone::template_text,
              "Limits on deposits, rights to cancel, liens and the wording of warranties differ from place "
              "to place. Have these terms read by someone who knows your law before they are used."});
  if (!terms.text.empty()) blocks.push_back(Paragraph{terms.text});
  if (terms.valid_days) {
    const std::string until = days_on(wish.date, static_cast<int>(std::lround(*terms.valid_days)));
    blocks.push_back(Paragraph{fmt::format("This offer is good for {:.0f} days{}.", *terms.valid_days,
                                           until.empty() ? "" : ", until " + until)});
  }
  blocks.push_back(Heading{2, "What everybody should know"});
  blocks.push_back(cautions_for_owners());
  blocks.push_back(
      together({Heading{1, "Agreed"},
                Paragraph{price && !price->options.empty() ? "Tick the options above that are wanted, and sign."
                                                           : "Signed by both, this proposal is the order."},
                Signatures{{"Client: name, date, signature", "Contractor: name, date, signature"}}}));
  return blocks;
}

}  // namespace duskwire::paper
