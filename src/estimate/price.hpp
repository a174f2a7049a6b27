// SPDX-License-Identifier: Apache-2.0
// The price of a job: material from its list, hours by kind of work, what the offer adds, tax, and the deposit. An
// estimate to be looked over before it is signed. Integer minor units; each line is rounded once, and a total is the
// sum of its lines. Method and figures: docs/algorithms/price.md.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/problem.hpp"
#include "estimate/deposit.hpp"
#include "estimate/labour.hpp"
#include "estimate/materials.hpp"
#include "estimate/price_rates.hpp"
#include "job/job.hpp"

namespace duskwire::estimate {

// In the order of the lines.
enum class PriceGroup : std::uint8_t { material = 0, labour = 1, extra = 2, tax = 3 };
[[nodiscard]] std::string_view group_name(PriceGroup group);
[[nodiscard]] std::string_view work_name(WorkKind kind);

struct PriceLine {
  std::string id;  // stable from one price of a job to the next: "cable/12awg-2", "trench/lawn"
  PriceGroup group = PriceGroup::material;
  std::string text;
  double quantity = 0;
  std::string unit;                   // "piece", "m", "h", "trip", "lump", "%"
  std::int64_t unit_price_minor = 0;  // rounded to be shown; the line is reckoned from what is exact
  std::int64_t cost_minor = 0;        // to the shop
  std::int64_t price_minor = 0;       // to the client
  std::string reason;
};

struct WorkHours {
  WorkKind kind = WorkKind::fixtures;
  double hours = 0;
};

// The job with other lights: what an option of the offer costs.
struct PricedOption {
  std::string id;
  std::string title;
  job::OptionKind kind = job::OptionKind::part;
  bool chosen = false;
  std::vector<std::string> luminaires;  // all that the job then has
  std::int64_t net_minor = 0;           // of the job with these luminaires
  std::int64_t total_minor = 0;
  std::int64_t adds_minor = 0;  // to the total before it: of the base, of the phase before, for a variant of the whole
  std::int64_t deposit_minor = 0;  // of total_minor
};

struct Price {
  std::string currency;
  std::vector<PriceLine> lines;
  std::vector<WorkHours> hours;  // by kind; kinds without any are left out
  double hours_total = 0;        // of one person
  double trips = 0;
  std::int64_t material_cost_minor = 0;
  std::int64_t labour_cost_minor = 0;
  std::int64_t other_cost_minor = 0;  // trips, extras
  std::int64_t overhead_minor = 0;
  std::int64_t net_minor = 0;
  std::int64_t tax_minor = 0;
  std::int64_t total_minor = 0;
  double margin_pct = 0;        // of the net price, after overhead; 0 where the price is 0
  double gross_margin_pct = 0;  // before overhead
  std::optional<double> margin_floor_pct;
  std::optional<Deposit> deposit;
  std::vector<PricedOption> options;
  std::optional<std::int64_t> base_minor;   // total of what no part and no phase holds, where there are any
  std::optional<std::int64_t> taken_minor;  // total of the job as the client chose it, where something is chosen
  std::vector<Assumption> assumptions;
  Problems problems;
};

struct PriceOptions {
  MaterialsOptions materials;
  std::vector<DepositRule> deposit_rules;
  bool with_options = true;
};

// `list` is materials() of the same job, stock and options. Never fails: what is wrong stands in `problems`, beside
// those of the list.
[[nodiscard]] Price price(const job::Job& job, const job::Catalogue& stock, const Materials& list,
                          const PriceOptions& options = {});
[[nodiscard]] Price price(const job::Job& job, const job::Catalogue& stock, const PriceOptions& options = {});

}  // namespace duskwire::estimate
