// SPDX-License-Identifier: Apache-2.0
// The offer within a job: what an hour, a trip and a metre of trench are worth to this shop, what is added to cost, the
// terms, and the options that the client chooses from. What is absent is taken by the common practice of the trade,
// which estimate/labour_rates.hpp lists; a price always says which values were taken so.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "job/extra.hpp"
#include "job/plan.hpp"

namespace duskwire::job {

// Minutes of one person per metre of trench in one kind of ground.
struct GroundRate {
  GroundKind ground = GroundKind::bed;
  double trench_min_per_m = 0;
  Extra extra;

  bool operator==(const GroundRate&) const = default;
};

struct Rates {
  std::optional<std::int64_t> labour_price_minor_per_h;  // to the client
  std::optional<std::int64_t> labour_cost_minor_per_h;   // to the shop
  std::optional<std::int64_t> trip_price_minor;          // beside the time on the road
  std::optional<std::int64_t> trip_cost_minor;
  std::optional<std::int64_t> sundries_cost_minor;  // a lump for small goods that the list does not count
  std::optional<double> crew_size;                  // people who drive out together
  std::optional<double> trips;                      // absent: as many days as the work takes, and the night visit
  std::optional<double> trip_h;                     // on the road, there and back, each person
  std::optional<double> work_day_h;                 // worked on site in a day, each person
  std::optional<double> night_visit_h;              // each person
  std::optional<double> night_visit_people;
  std::optional<double> commissioning_min_per_lamp;
  std::optional<double> commissioning_min_per_output;
  std::vector<GroundRate> trenches;  // grounds that this shop digs faster or slower
  Extra extra;

  bool operator==(const Rates&) const = default;
};

enum class TaxBase : std::uint8_t { whole_price = 0, material = 1 };

struct Margins {
  std::optional<double> material_markup_pct;
  std::optional<double> overhead_pct;      // the shop's running costs, on top of what the job costs
  std::optional<double> margin_floor_pct;  // lowest margin without a warning
  std::optional<double> contingency_pct;   // hours for the unknown; absent: by the soil of the site
  std::optional<double> tax_pct;
  std::optional<TaxBase> tax_on;  // absent: the whole price
  std::string tax_name;
  Extra extra;

  bool operator==(const Margins&) const = default;
};

struct Warranty {
  std::string subject;
  double years = 0;
  Extra extra;

  bool operator==(const Warranty&) const = default;
};

struct Terms {
  std::optional<double> deposit_pct;  // what the shop asks
  std::optional<std::int64_t> deposit_cap_minor;
  std::string deposit_rule;  // id of a rule of the data that limits it
  std::optional<double> valid_days;
  std::vector<std::string> exclusions;
  std::vector<Warranty> warranties;
  std::string text;
  Extra extra;

  bool operator==(const Terms&) const = default;
};

// One item of the job's catalogue in place of another.
struct ItemSwap {
  std::string item;
  std::string with;
  Extra extra;

  bool operator==(const ItemSwap&) const = default;
};

enum class OptionKind : std::uint8_t {
  part = 0,     // on top of what no part or phase holds: taken or left
  phase = 1,    // on top of that and of the phases before it
  variant = 2,  // instead of the whole: the job with these luminaires and no others
};

struct OfferOption {
  std::string id;
  OptionKind kind = OptionKind::part;
  std::string title;
  std::string text;
  std::vector<std::string> luminaires;  // a variant without any has them all
  std::vector<ItemSwap> swaps;
  bool chosen = false;
  Extra extra;

  bool operator==(const OfferOption&) const = default;
};

// A line that no quantity of the plan gives: another trade's work, an allowance, a reduction.
struct OfferExtra {
  std::string id;
  std::string title;
  std::int64_t price_minor = 0;  // negative: a reduction
  std::int64_t cost_minor = 0;
  Extra extra;

  bool operator==(const OfferExtra&) const = default;
};

struct Offer {
  std::string number;
  std::string date;  // ISO 8601
  Rates rates;
  Margins margins;
  Terms terms;
  std::vector<OfferOption> options;
  std::vector<OfferExtra> extras;
  Extra extra;

  bool operator==(const Offer&) const = default;
};

}  // namespace duskwire::job
