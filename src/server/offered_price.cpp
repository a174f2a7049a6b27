// SPDX-License-Identifier: Apache-2.0
#include "server/offered_price.hpp"

#include <algorithm>
#include <array>

namespace duskwire::server {
namespace {

const job::OfferOption* option_of(const job::Job& job, const std::string& id) {
  if (!job.offer) return nullptr;
  for (const job::OfferOption& option : job.offer->options) {
    if (option.id == id) return &option;
  }
  return nullptr;
}

paper::OfferedOption offered(const estimate::PricedOption& priced, const job::Job& job) {
  paper::OfferedOption option;
  option.title = priced.title;
  option.chosen = priced.chosen;
  option.total_minor = priced.kind == job::OptionKind::variant ? priced.total_minor : priced.adds_minor;
  if (const job::OfferOption* source = option_of(job, priced.id)) {
    option.text = source->text;
    option.luminaires = source->luminaires;
  }
  constexpr std::array<const char*, 3> kinds{"added to what no option holds", "added to the phase before",
                                             "the whole garden, instead of the other versions"};
  option.kind = kinds.at(static_cast<std::size_t>(priced.kind));
  return option;
}

}  // namespace

std::optional<paper::OfferedPrice> offered_price(const estimate::Price& price, const job::Job& job) {
  if (price.lines.empty() || price.total_minor <= 0) return std::nullopt;
  paper::OfferedPrice out;
  out.currency = price.currency;
  constexpr std::array<const char*, 3> names{"Lights, transformers, cable and small goods", "Work",
                                             "Trips, allowances and reductions"};
  for (std::size_t group = 0; group < names.size(); ++group) {
    std::int64_t sum_minor = 0;
    bool any = false;
    for (const estimate::PriceLine& line : price.lines) {
      if (static_cast<std::size_t>(line.group) != group) continue;
      sum_minor += line.price_minor;
      any = true;
    }
    if (any) out.groups.emplace_back(names.at(group), sum_minor);
  }
  out.net_minor = price.net_minor;
  out.tax_minor = price.tax_minor;
  out.tax_name = job.offer ? job.offer->margins.tax_name : "";
  out.total_minor = price.total_minor;
  if (price.deposit) {
    out.deposit_minor = price.deposit->amount_minor;
    out.deposit_rule = price.deposit->title.empty() ? "" : price.deposit->title + " (" + price.deposit->status + ").";
  }
  for (const estimate::PricedOption& option : price.options) out.options.push_back(offered(option, job));
  return out;
}

}  // namespace duskwire::server
