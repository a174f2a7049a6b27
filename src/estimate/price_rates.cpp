// SPDX-License-Identifier: Apache-2.0
#include "estimate/price_rates.hpp"

#include <fmt/format.h>

#include "base/currency.hpp"
#include "estimate/labour_rates.hpp"

namespace duskwire::estimate {
namespace {

constexpr const char* practice = "common practice, no source";

struct SoilRisk {
  const char* name;
  double contingency_pct;
};

// 5 to 15 % by soil is the practice; which soil takes how much of it is an estimate.
SoilRisk risk_of(const std::optional<job::Soil>& soil) {
  if (!soil) return {"soil not known", 10};
  switch (*soil) {
    case job::Soil::sand:
      return {"sand", 5};
    case job::Soil::loam:
      return {"loam", 5};
    case job::Soil::clay:
      return {"clay", 10};
    case job::Soil::stony:
      return {"stony soil", 15};
    case job::Soil::rock:
      break;
  }
  return {"rock", 15};
}

class Filler {
 public:
  Filler(PriceRates& rates, const std::string& currency) : rates_(rates), currency_(currency) {}

  void number(double& out, const std::optional<double>& given, const char* what, const char* unit) {
    if (given) {
      out = *given;
    } else {
      assume(what, fmt::format("{:g} {}", out, unit));
    }
  }
  void money_per_h(std::int64_t& out, const std::optional<std::int64_t>& given, const char* what) {
    if (given) {
      out = *given;
    } else {
      assume(what, fmt::format("{} {} per hour", decimal_amount(out, currency_), currency_));
    }
  }
  void assume(const char* what, std::string value) { rates_.assumptions.push_back({what, std::move(value), practice}); }

 private:
  PriceRates& rates_;
  const std::string& currency_;
};

void fill_contingency(PriceRates& rates, const job::Margins& margins, const job::Site& site, Filler& filler) {
  const SoilRisk risk = risk_of(site.soil);
  rates.contingency_reason = risk.name;
  rates.contingency_pct = margins.contingency_pct.value_or(risk.contingency_pct);
  if (margins.contingency_pct) return;
  filler.assume("Hours for the unknown in the ground",
                fmt::format("{:g} % of all hours ({})", risk.contingency_pct, risk.name));
}

}  // namespace

PriceRates price_rates(const job::Job& job) {
  PriceRates rates;
  const job::Offer offer = job.offer.value_or(job::Offer{});
  const job::Rates& given = offer.rates;
  const job::Margins& margins = offer.margins;
  Filler filler(rates, job.site.currency);
  rates.install = install_rates(job);
  filler.money_per_h(rates.labour_price_minor_per_h, given.labour_price_minor_per_h, "An hour's price");
  filler.money_per_h(rates.install.labour_minor_per_h, given.labour_cost_minor_per_h, "An hour's cost");
  filler.number(rates.material_markup_pct, margins.material_markup_pct, "Mark-up on material", "%");
  filler.number(rates.crew_size, given.crew_size, "Crew", "people");
  filler.number(rates.trip_h, given.trip_h, "On the road, there and back", "h a trip for each person");
  filler.number(rates.work_day_h, given.work_day_h, "A day on site", "h");
  filler.number(rates.night_visit_h, given.night_visit_h, "Night visit", "h for each person");
  filler.number(rates.night_visit_people, given.night_visit_people, "At the night visit", "people");
  filler.number(rates.commissioning_min_per_lamp, given.commissioning_min_per_lamp, "Commissioning", "min a light");
  filler.number(rates.commissioning_min_per_output, given.commissioning_min_per_output, "Commissioning",
                "min an output");
  fill_contingency(rates, margins, job.site, filler);
  rates.trips = given.trips;
  rates.trip_price_minor = given.trip_price_minor.value_or(0);
  rates.trip_cost_minor = given.trip_cost_minor.value_or(0);
  rates.sundries_cost_minor = given.sundries_cost_minor.value_or(0);
  rates.overhead_pct = margins.overhead_pct.value_or(0);
  rates.margin_floor_pct = margins.margin_floor_pct;
  rates.tax_pct = margins.tax_pct.value_or(0);
  rates.tax_on = margins.tax_on.value_or(job::TaxBase::whole_price);
  if (!margins.tax_name.empty()) rates.tax_name = margins.tax_name;
  return rates;
}

}  // namespace duskwire::estimate
