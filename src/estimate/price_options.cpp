// SPDX-License-Identifier: Apache-2.0
#include "estimate/price_options.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <unordered_set>

#include "estimate/stockroom.hpp"
#include "estimate/variant.hpp"

namespace duskwire::estimate {
namespace {

using Ids = std::unordered_set<std::string>;
using Swaps = std::vector<job::ItemSwap>;

class OptionPricer {
 public:
  OptionPricer(const job::Job& job, const job::Catalogue& stock, const PriceOptions& options, Price& whole)
      : job_(job), stock_(stock), options_(options), whole_(whole) {
    options_.with_options = false;
    for (const job::Luminaire& luminaire : job.luminaires) base_.insert(luminaire.id);
    for (const job::OfferOption& option : job.offer->options) {
      if (option.kind == job::OptionKind::variant) continue;
      has_base_ = true;
      for (const std::string& id : option.luminaires) base_.erase(id);
    }
  }

  void run() {
    if (has_base_) whole_.base_minor = total_of(base_, {});
    Ids so_far = base_;
    Swaps phase_swaps;
    std::int64_t before_minor = whole_.base_minor.value_or(0);
    for (std::size_t i = 0; i < job_.offer->options.size(); ++i) {
      const job::OfferOption& option = job_.offer->options[i];
      check_names(option, i);
      switch (option.kind) {
        case job::OptionKind::part:
          add(option, joined(base_, option), option.swaps, *whole_.base_minor);
          break;
        case job::OptionKind::phase:
          so_far = joined(so_far, option);
          phase_swaps.insert(phase_swaps.end(), option.swaps.begin(), option.swaps.end());
          before_minor = add(option, so_far, phase_swaps, before_minor);
          break;
        case job::OptionKind::variant:
          add(option, option.luminaires.empty() ? everything() : joined({}, option), option.swaps, whole_.total_minor);
          break;
      }
    }
    add_taken();
  }

 private:
  [[nodiscard]] Ids everything() const {
    Ids all;
    for (const job::Luminaire& luminaire : job_.luminaires) all.insert(luminaire.id);
    return all;
  }
  static Ids joined(Ids ids, const job::OfferOption& option) {
    ids.insert(option.luminaires.begin(), option.luminaires.end());
    return ids;
  }

  void problem(const std::string& pointer, const std::string& value, const char* expected, std::string message) {
    whole_.problems.push_back({Severity::warning, pointer, value, expected, std::move(message)});
  }

  void check_names(const job::OfferOption& option, std::size_t index) {
    const Ids known = everything();
    for (std::size_t k = 0; k < option.luminaires.size(); ++k) {
      if (known.contains(option.luminaires[k])) continue;
      problem(fmt::format("/offer/options/{}/luminaires/{}", index, k), option.luminaires[k],
              "id of a light of the job",
              fmt::format("The option \"{}\" names the light {}, which the job does not have: it is not priced.",
                          option.title, option.luminaires[k]));
    }
    const Stockroom stockroom(job_.catalogue, stock_);
    for (std::size_t k = 0; k < option.swaps.size(); ++k) {
      if (stockroom.pick(&job::Catalogue::luminaires, option.swaps[k].with)) continue;
      problem(fmt::format("/offer/options/{}/swaps/{}/with", index, k), option.swaps[k].with,
              "id of a luminaire in the catalogue",
              fmt::format("The option \"{}\" puts {} in, which the catalogue does not have: it is not priced.",
                          option.title, option.swaps[k].with));
    }
  }

  [[nodiscard]] job::Job job_with(const Ids& kept, const Swaps& swaps) const {
    job::Job variant = with_luminaires(job_, kept);
    for (job::Luminaire& luminaire : variant.luminaires) {
      const auto swap = std::find_if(swaps.begin(), swaps.end(),
                                     [&](const job::ItemSwap& each) { return each.item == luminaire.item; });
      if (swap != swaps.end()) luminaire.item = swap->with;
    }
    return variant;
  }
  [[nodiscard]] Price price_of(const job::Job& variant) const { return price(variant, stock_, options_); }
  [[nodiscard]] std::int64_t total_of(const Ids& kept, const Swaps& swaps) const {
    return price_of(job_with(kept, swaps)).total_minor;
  }

  std::int64_t add(const job::OfferOption& option, const Ids& kept, const Swaps& swaps, std::int64_t before_minor) {
    const job::Job variant = job_with(kept, swaps);
    const Price priced = price_of(variant);
    PricedOption out;
    out.id = option.id;
    out.title = option.title;
    out.kind = option.kind;
    out.chosen = option.chosen;
    for (const job::Luminaire& luminaire : variant.luminaires) out.luminaires.push_back(luminaire.id);
    out.net_minor = priced.net_minor;
    out.total_minor = priced.total_minor;
    out.adds_minor = priced.total_minor - before_minor;
    out.deposit_minor = priced.deposit ? priced.deposit->amount_minor : 0;
    whole_.options.push_back(std::move(out));
    return priced.total_minor;
  }

  // A chosen variant stands for the whole; else the base with all parts and phases that were chosen.
  void add_taken() {
    Ids kept = base_;
    Swaps swaps;
    bool is_chosen = false;
    for (std::size_t i = 0; i < job_.offer->options.size(); ++i) {
      const job::OfferOption& option = job_.offer->options[i];
      if (!option.chosen) continue;
      if (option.kind == job::OptionKind::variant) {
        whole_.taken_minor = whole_.options[i].total_minor;
        return;
      }
      is_chosen = true;
      kept = joined(kept, option);
      swaps.insert(swaps.end(), option.swaps.begin(), option.swaps.end());
    }
    if (is_chosen) whole_.taken_minor = total_of(kept, swaps);
  }

  const job::Job& job_;
  const job::Catalogue& stock_;
  PriceOptions options_;
  Price& whole_;
  Ids base_;  // what no part and no phase holds
  bool has_base_ = false;
};

}  // namespace

void price_options(const job::Job& job, const job::Catalogue& stock, const PriceOptions& options, Price& price) {
  if (job.offer->options.empty()) return;
  OptionPricer(job, stock, options, price).run();
}

}  // namespace duskwire::estimate
