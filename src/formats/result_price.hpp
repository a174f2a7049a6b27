// SPDX-License-Identifier: Apache-2.0
// The shape of a price, of the move from one price to another, and of a price band.
#pragma once

#include "formats/result_shape.hpp"
#include "study/price.hpp"
#include "study/price_band.hpp"

namespace duskwire::formats {

constexpr auto names(Of<estimate::PriceGroup>) { return std::array{"material", "labour", "extra", "tax"}; }
constexpr auto names(Of<estimate::WorkKind>) {
  return std::array{"fixtures", "transformers",  "cable",       "splices", "small_goods",
                    "trench",   "commissioning", "night_visit", "travel",  "contingency"};
}

template <class Visitor>
void describe_result(Of<estimate::PriceLine>, Visitor& v) {
  using T = estimate::PriceLine;
  v.result("id", &T::id, "Stays the same from one price of a job to the next");
  v.result("group", &T::group, "What it belongs to");
  v.result("text", &T::text, "Words for the client");
  v.result("quantity", &T::quantity, "How much");
  v.result("unit", &T::unit, "piece, m, h, trip, lump or %");
  v.result("unit_price_minor", &T::unit_price_minor, "Price of one, rounded to be shown");
  v.result("cost_minor", &T::cost_minor, "Cost to the shop");
  v.result("price_minor", &T::price_minor, "Price to the client, rounded once");
  v.result("reason", &T::reason, "What it rests on");
}

template <class Visitor>
void describe_result(Of<estimate::WorkHours>, Visitor& v) {
  using T = estimate::WorkHours;
  v.result("kind", &T::kind, "Kind of work");
  v.result("hours", &T::hours, "Hours of one person");
}

template <class Visitor>
void describe_result(Of<estimate::PricedOption>, Visitor& v) {
  using T = estimate::PricedOption;
  v.result("id", &T::id, "Id of the option");
  v.result("title", &T::title, "Name for people");
  v.result("kind", &T::kind, "A part, a phase or a variant");
  v.result("chosen", &T::chosen, "The client took it");
  v.result("luminaires", &T::luminaires, "All lights that the job then has");
  v.result("net_minor", &T::net_minor, "Price of that job before tax");
  v.result("total_minor", &T::total_minor, "Price of that job");
  v.result("adds_minor", &T::adds_minor,
           "A part: on top of the base. A phase: on top of what comes before. A variant: against the whole job");
  v.result("deposit_minor", &T::deposit_minor, "Deposit on `total_minor`");
}

template <class Visitor>
void describe_result(Of<estimate::Deposit>, Visitor& v) {
  using T = estimate::Deposit;
  v.result("amount_minor", &T::amount_minor, "Deposit");
  v.result("rule", &T::rule, "Id of the rule on deposits; empty: none is named");
  v.result("title", &T::title, "The rule in words");
  v.result("status", &T::status, "How sure we are of the rule");
  v.result("reason", &T::reason, "What set the amount");
}

template <class Visitor>
void describe_result(Of<estimate::Assumption>, Visitor& v) {
  using T = estimate::Assumption;
  v.result("what", &T::what, "What the offer does not say");
  v.result("value", &T::value, "What was taken instead");
  v.result("status", &T::status, "How sure we are of it");
}

template <class Visitor>
void describe_result(Of<estimate::Price>, Visitor& v) {
  using T = estimate::Price;
  v.result("currency", &T::currency, "Currency of the site");
  v.result("lines", &T::lines, "Material, labour, extras, tax");
  v.result("hours", &T::hours, "Hours by kind of work");
  v.result("hours_total", &T::hours_total, "Hours of one person");
  v.result("trips", &T::trips, "Trips to the site");
  v.result("material_cost_minor", &T::material_cost_minor, "Cost of the material");
  v.result("labour_cost_minor", &T::labour_cost_minor, "Cost of the hours");
  v.result("other_cost_minor", &T::other_cost_minor, "Cost of trips and extras");
  v.result("overhead_minor", &T::overhead_minor, "The shop's running costs for this job");
  v.result("net_minor", &T::net_minor, "Sum of the lines but for tax");
  v.result("tax_minor", &T::tax_minor, "Tax");
  v.result("total_minor", &T::total_minor, "Sum of all lines");
  v.result("margin_pct", &T::margin_pct, "Share of the net price that is left after costs and overhead");
  v.result("gross_margin_pct", &T::gross_margin_pct, "The same before overhead");
  v.result("margin_floor_pct", &T::margin_floor_pct, "Lowest margin without a warning");
  v.result("deposit", &T::deposit, "Deposit and the rule it came from");
  v.result("options", &T::options, "Each option as the job with its lights");
  v.result("base_minor", &T::base_minor, "Price of what no part and no phase holds");
  v.result("taken_minor", &T::taken_minor, "Price of the job as the client chose it");
  v.result("assumptions", &T::assumptions, "What the offer does not say");
}

template <class Visitor>
void describe_result(Of<estimate::LineDifference>, Visitor& v) {
  using T = estimate::LineDifference;
  v.result("id", &T::id, "Id of the line");
  v.result("group", &T::group, "What it belongs to");
  v.result("before_minor", &T::before_minor, "Its price before; 0: it was not there");
  v.result("after_minor", &T::after_minor, "Its price after; 0: it is gone");
  v.result("moved_minor", &T::moved_minor, "After less before");
  v.result("reason", &T::reason, "Why, in one sentence");
}

template <class Visitor>
void describe_result(Of<estimate::PriceDifference>, Visitor& v) {
  using T = estimate::PriceDifference;
  v.result("currency", &T::currency, "Currency of both");
  v.result("before_minor", &T::before_minor, "Price before");
  v.result("after_minor", &T::after_minor, "Price after");
  v.result("moved_minor", &T::moved_minor, "Sum of the lines' moves");
  v.result("lines", &T::lines, "Lines that moved, the largest first");
  v.result("summary", &T::summary, "The move in one sentence");
}

template <class Visitor>
void describe_result(Of<study::BandPart>, Visitor& v) {
  using T = study::BandPart;
  v.result("feature", &T::feature, "What is lit");
  v.result("lamps_low", &T::lamps_low, "Fewest lights");
  v.result("lamps_high", &T::lamps_high, "Most lights");
  v.result("low_minor", &T::low_minor, "Lowest price");
  v.result("high_minor", &T::high_minor, "Highest price");
  v.result("reason", &T::reason, "How it is reckoned");
}

template <class Visitor>
void describe_result(Of<study::PriceBand>, Visitor& v) {
  using T = study::PriceBand;
  v.result("currency", &T::currency, "Currency");
  v.result("lamps_low", &T::lamps_low, "Fewest lights");
  v.result("lamps_high", &T::lamps_high, "Most lights");
  v.result("low_minor", &T::low_minor, "Lower end");
  v.result("usual_minor", &T::usual_minor, "Middle of the counts at the price that is quoted most");
  v.result("high_minor", &T::high_minor, "Upper end");
  v.result("parts", &T::parts, "Feature by feature");
  v.result("widens", &T::widens, "What may cost more than the band");
  v.result("narrows", &T::narrows, "What to send or measure");
  v.result("basis", &T::basis, "Where the figures come from");
}

}  // namespace duskwire::formats
