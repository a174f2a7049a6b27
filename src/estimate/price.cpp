// SPDX-License-Identifier: Apache-2.0
#include "estimate/price.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "base/currency.hpp"
#include "estimate/money.hpp"
#include "estimate/price_lines.hpp"
#include "estimate/price_options.hpp"

namespace duskwire::estimate {
namespace {

// Sums that say so, once, where they leave the numbers.
class Summer {
 public:
  explicit Summer(Problems& problems) : problems_(problems) {}

  void add(std::int64_t& sum, std::int64_t amount) {
    if (!__builtin_add_overflow(sum, amount, &sum)) return;
    sum = 0;
    if (told_) return;
    told_ = true;
    problems_.push_back({Severity::error, "/offer", "", "a total that can be written in 64 bits",
                         "The sum of the price is too large to be counted: correct the rates."});
  }

 private:
  Problems& problems_;
  bool told_ = false;
};

void sum_lines(Price& price, Summer& summer) {
  for (const PriceLine& line : price.lines) {
    std::int64_t& cost = line.group == PriceGroup::material ? price.material_cost_minor
                         : line.group == PriceGroup::labour ? price.labour_cost_minor
                                                            : price.other_cost_minor;
    summer.add(cost, line.cost_minor);
    summer.add(price.net_minor, line.price_minor);
  }
}

void sum_hours(Price& price, const Labour& labour) {
  for (const Work& work : labour.work) {
    const auto found = std::find_if(price.hours.begin(), price.hours.end(),
                                    [&](const WorkHours& hours) { return hours.kind == work.kind; });
    WorkHours& hours = found == price.hours.end() ? price.hours.emplace_back(WorkHours{work.kind, 0}) : *found;
    hours.hours += work.minutes / 60;
  }
  price.hours_total = labour.minutes / 60;
  price.trips = labour.trips;
}

void add_tax(Price& price, const PriceRates& rates, Summer& summer) {
  price.total_minor = price.net_minor;
  if (!(rates.tax_pct > 0)) return;
  std::int64_t taxed_minor = 0;
  for (const PriceLine& line : price.lines) {
    if (rates.tax_on == job::TaxBase::material && line.group != PriceGroup::material) continue;
    summer.add(taxed_minor, line.price_minor);
  }
  price.tax_minor = share_minor(std::max<std::int64_t>(0, taxed_minor), rates.tax_pct).value_or(0);
  price.lines.push_back({"tax", PriceGroup::tax, rates.tax_name, rates.tax_pct, "%", 0, 0, price.tax_minor,
                         rates.tax_on == job::TaxBase::material ? "On material" : "On the whole price"});
  summer.add(price.total_minor, price.tax_minor);
}

// What is handed on to the state is no cost and no price: margins are of the net.
void add_margins(Price& price, const PriceRates& rates, Summer& summer) {
  std::int64_t cost_minor = 0;
  for (const std::int64_t part : {price.material_cost_minor, price.labour_cost_minor, price.other_cost_minor}) {
    summer.add(cost_minor, part);
  }
  price.overhead_minor = share_minor(cost_minor, rates.overhead_pct).value_or(0);
  price.margin_floor_pct = rates.margin_floor_pct;
  if (price.net_minor <= 0) return;
  const auto net = static_cast<double>(price.net_minor);
  price.gross_margin_pct = 100 * (net - static_cast<double>(cost_minor)) / net;
  price.margin_pct = price.gross_margin_pct - 100 * static_cast<double>(price.overhead_minor) / net;
  if (!price.margin_floor_pct || price.margin_pct >= *price.margin_floor_pct) return;
  price.problems.push_back(
      {Severity::warning, "/offer/margins/margin_floor_pct", fmt::format("{:.1f} %", price.margin_pct),
       fmt::format("at least {:g} %", *price.margin_floor_pct),
       fmt::format("The margin is {:.1f} %, below the floor of {:g} %: raise the mark-up or the hour's price, or save "
                   "hours.",
                   price.margin_pct, *price.margin_floor_pct)});
}

std::vector<std::string> to_lay(const job::Plan& plan, const MaterialsOptions& options) {
  std::vector<std::string> ids;
  for (const job::Sleeve& sleeve : plan.sleeves) {
    const auto& laid = options.laid_sleeves;
    if (sleeve.laid.value_or(false) || std::find(laid.begin(), laid.end(), sleeve.id) != laid.end()) continue;
    ids.push_back(sleeve.id);
  }
  return ids;
}

}  // namespace

std::string_view group_name(PriceGroup group) {
  constexpr std::array<std::string_view, 4> names{"material", "labour", "extra", "tax"};
  return names.at(static_cast<std::size_t>(group));
}

std::string_view work_name(WorkKind kind) {
  constexpr std::array<std::string_view, 10> names{"fixtures",    "transformers", "cable",         "splices",
                                                   "small_goods", "trench",       "commissioning", "night_visit",
                                                   "travel",      "contingency"};
  return names.at(static_cast<std::size_t>(kind));
}

Price price(const job::Job& job, const job::Catalogue& stock, const Materials& list, const PriceOptions& options) {
  Price price;
  price.currency = job.site.currency;
  price.problems = list.problems;
  const PriceRates rates = price_rates(job);
  price.assumptions = rates.assumptions;
  const Labour work = labour(job, list, rates, to_lay(job.plan, options.materials));
  price.lines = price_lines(job, list, work, rates, price.problems);
  Summer summer(price.problems);
  sum_lines(price, summer);
  sum_hours(price, work);
  add_tax(price, rates, summer);
  add_margins(price, rates, summer);
  if (job.offer) {
    price.deposit =
        deposit_of(job.offer->terms, options.deposit_rules, price.total_minor, price.currency, price.problems);
    if (options.with_options) price_options(job, stock, options, price);
  }
  return price;
}

Price price(const job::Job& job, const job::Catalogue& stock, const PriceOptions& options) {
  return price(job, stock, materials(job, stock, options.materials), options);
}

}  // namespace duskwire::estimate
