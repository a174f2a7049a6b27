// SPDX-License-Identifier: Apache-2.0
// A transformer is sized by VA and headroom: VA = W / power factor, and a driver's current follows its VA. Watts never
// decide.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "study/advice_parts.hpp"
#include "study/number_troubles.hpp"
#include "study/wording.hpp"

namespace duskwire::study {
namespace {

constexpr WordedUnit watt_unit{1, "W", 0};
constexpr double same_v = 1e-9;

std::string title_of(const job::TransformerItem& item) { return item.title.empty() ? item.id : item.title; }
std::string va_words(double va) { return worded(va, volt_ampere_unit); }
std::string share_words(double share) { return worded(100 * share, percent_unit); }

double load_va(const TransformerNeed& need) { return std::max(need.lamp_va, need.load_va); }

// What one output of the item carries with its reserve: its limit in amperes at the lowest tap in use.
double output_capacity_va(const TransformerNeed& need, const job::TransformerItem& item) {
  double tap_v = 12;
  const std::vector<double>& taps_v = need.taps_v.empty() ? item.taps_v : need.taps_v;
  if (!taps_v.empty()) tap_v = *std::min_element(taps_v.begin(), taps_v.end());
  return item.output_limit_a * tap_v * need.output_load_share;
}

std::uint32_t outputs_needed(const TransformerNeed& need, const job::TransformerItem& item) {
  constexpr double most = 1000;
  const double capacity_va = output_capacity_va(need, item);
  const double by_load = capacity_va > 0 ? std::ceil(load_va(need) / capacity_va - 1e-9) : 1;
  return std::max({1u, need.output_count, static_cast<std::uint32_t>(std::clamp(by_load, 0.0, most))});
}

const double* missing_tap(const TransformerNeed& need, const job::TransformerItem& item) {
  for (const double& tap_v : need.taps_v) {
    const bool offered = std::any_of(item.taps_v.begin(), item.taps_v.end(),
                                     [&](double offered_v) { return std::abs(offered_v - tap_v) < same_v; });
    if (!offered && !item.taps_v.empty()) return &tap_v;
  }
  return nullptr;
}

// Empty where the item does.
std::string refusal(const TransformerNeed& need, const job::TransformerItem& item) {
  if (!(item.rating_va > 0)) return "its rating is not known";
  const double usable_va = item.rating_va * need.load_share;
  const double load = load_va(need);
  if (load > usable_va) {
    std::string text = fmt::format("{} are to be delivered, it may be used to {} ({} of {})", va_words(load),
                                   va_words(usable_va), share_words(need.load_share), va_words(item.rating_va));
    if (need.lamp_w <= item.rating_va && need.lamp_w < need.lamp_va) {
      text += fmt::format("; that {:.0f} W is less than {:.0f} does not count, the lamps draw {}", need.lamp_w,
                          item.rating_va, va_words(need.lamp_va));
    }
    return text;
  }
  const std::uint32_t outputs = outputs_needed(need, item);
  if (outputs > item.output_count) {
    return fmt::format("{} needed, each carries {} at most ({} of {}); it has {}", counted(outputs, "output"),
                       va_words(output_capacity_va(need, item)), share_words(need.output_load_share),
                       worded(item.output_limit_a, ampere_unit), item.output_count);
  }
  if (const double* tap_v = missing_tap(need, item))
    return fmt::format("it has no tap of {}", worded(*tap_v, volt_unit));
  if (need.outdoors && !item.outdoor_listed) return "it is not listed for outdoors";
  return "";
}

TransformerChoice judge_item(const TransformerNeed& need, const job::TransformerItem& item) {
  TransformerChoice choice;
  choice.item = item.id;
  choice.title = title_of(item);
  choice.rating_va = item.rating_va;
  choice.output_count = item.output_count;
  choice.price_minor = item.price_minor;
  const std::string against = refusal(need, item);
  choice.fits = against.empty();
  choice.reason = choice.fits ? fmt::format("carries {} with {} of its {} used", va_words(load_va(need)),
                                            share_words(load_va(need) / item.rating_va), va_words(item.rating_va))
                              : "refused: " + against;
  return choice;
}

std::string need_words(const TransformerAdvice& advice) {
  const TransformerNeed& need = advice.need;
  std::string text = fmt::format("{} of {} draw {}", counted(need.lamp_count, "lamp"), worded(need.lamp_w, watt_unit),
                                 va_words(need.lamp_va));
  if (need.load_va > need.lamp_va) text += fmt::format(", {} at the taps with the cables", va_words(need.load_va));
  return text +
         fmt::format(": with {} used that asks for {}", share_words(need.load_share), va_words(advice.needed_va));
}

void take_choice(TransformerAdvice& advice, TransformerChoice& choice, const job::TransformerItem& item) {
  choice.chosen = true;
  advice.chosen_item = choice.item;
  advice.needed_outputs = outputs_needed(advice.need, item);
  advice.reason =
      fmt::format("{} and {}; {} has {} and {}.", need_words(advice), counted(advice.needed_outputs, "output"),
                  choice.title, va_words(item.rating_va), counted(item.output_count, "output"));
}

struct TransformerOffer {
  TransformerChoice choice;
  const job::TransformerItem* item = nullptr;
};

double usable_share(double share, double otherwise) { return share > 0 && share <= 1 ? share : otherwise; }

TransformerAdvice advise_for(TransformerNeed need, const std::vector<job::TransformerItem>& items,
                             const std::string& present) {
  const LoadShares usual;
  need.load_share = usable_share(need.load_share, usual.transformer);
  need.output_load_share = usable_share(need.output_load_share, usual.output);
  TransformerAdvice advice;
  advice.need = need;
  advice.present_item = present;
  advice.needed_va = load_va(need) / need.load_share;
  std::vector<TransformerOffer> offers;
  for (const job::TransformerItem& item : items) {
    offers.push_back({judge_item(need, item), &item});
    offers.back().choice.present = item.id == present;
  }
  std::stable_sort(offers.begin(), offers.end(), [](const TransformerOffer& p, const TransformerOffer& q) {
    return std::pair(p.choice.rating_va, p.choice.price_minor) < std::pair(q.choice.rating_va, q.choice.price_minor);
  });
  // What hangs there already stays where it does; else the cheapest, and of equal price the smallest.
  TransformerOffer* best = nullptr;
  for (TransformerOffer& offer : offers) {
    if (!offer.choice.fits) continue;
    const bool cheaper = !best || offer.choice.price_minor < best->choice.price_minor;
    if (offer.choice.present || (cheaper && !(best && best->choice.present))) best = &offer;
  }
  if (best) {
    take_choice(advice, best->choice, *best->item);
  } else {
    advice.reason = need_words(advice) + ": none on offer does. Split the lamps over two transformers.";
  }
  for (TransformerOffer& offer : offers) {
    if (offer.choice.present && !offer.choice.fits) {
      advice.reason += fmt::format(" {} is {}.", offer.choice.title, offer.choice.reason);
    }
    advice.choices.push_back(std::move(offer.choice));
  }
  return advice;
}

TransformerNeed need_of(const Built& built, const Numbers& numbers, std::uint32_t t) {
  const job::Transformer& transformer = built.job->transformers[t];
  const LoadShares shares = load_shares(built.job->practice);
  TransformerNeed need;
  need.lamp_w = numbers.transformers[t].lamp_w;
  need.lamp_va = numbers.transformers[t].lamp_va;
  need.load_va = numbers.transformers[t].worst_load_va;
  need.load_share = shares.transformer;
  need.output_load_share = shares.output;
  need.outdoors = transformer.mounting != job::Mounting::indoors;
  need.output_count = 0;
  for (std::uint32_t o = 0; o < transformer.outputs.size(); ++o) {
    const OutputNumbers& output = numbers.outputs[built.first_output[t] + o];
    need.lamp_count += output.lamp_count;
    if (output.lamp_count == 0) continue;
    ++need.output_count;
    need.taps_v.push_back(transformer.outputs[o].tap_v);
  }
  need.output_count = std::max(1u, need.output_count);
  return need;
}

}  // namespace

TransformerAdvice size_transformer(const TransformerNeed& need, const std::vector<job::TransformerItem>& items) {
  return advise_for(need, items, "");
}

std::vector<TransformerAdvice> advise_transformers(const Built& built, const Numbers& numbers,
                                                   const job::Catalogue& stock) {
  std::vector<job::TransformerItem> items = built.job->catalogue.transformers;
  for (const job::TransformerItem& item : stock.transformers) {
    if (!job::find_transformer(built.job->catalogue, item.id)) items.push_back(item);
  }
  std::vector<TransformerAdvice> all;
  for (std::uint32_t t = 0; t < built.job->transformers.size(); ++t) {
    const job::Transformer& transformer = built.job->transformers[t];
    TransformerAdvice advice = advise_for(need_of(built, numbers, t), items, transformer.item);
    advice.transformer = transformer.id;
    if (!advice.chosen_item.empty() && advice.chosen_item != transformer.item) {
      advice.changes = {{job::ChangeKind::set_transformer_item, transformer.id, advice.chosen_item, "", 0}};
    }
    all.push_back(std::move(advice));
  }
  return all;
}

}  // namespace duskwire::study
