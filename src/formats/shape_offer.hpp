// SPDX-License-Identifier: Apache-2.0
// The shape of the offer. Ids that it names are not looked up: an option may tell of a light long gone.
#pragma once

#include "formats/enum_names.hpp"
#include "formats/shape.hpp"
#include "job/offer.hpp"

namespace duskwire::formats {

inline constexpr Number percent{0, 1000, "%"};
inline constexpr Number hourly_minor{0, 1e9, "minor units per hour"};
inline constexpr Number amount_minor_rule{0, 1e12, "minor units"};

template <class Visitor>
void describe(Of<job::GroundRate>, Visitor& v) {
  using T = job::GroundRate;
  v.field("ground", &T::ground, OneOf{}, required, "What is dug");
  v.field("trench_min_per_m", &T::trench_min_per_m, Number{0, 10'000, "min/m"}, required,
          "One person's time for a metre of trench, opened and closed");
}

template <class Visitor>
void describe(Of<job::Rates>, Visitor& v) {
  using T = job::Rates;
  v.field("labour_price_minor_per_h", &T::labour_price_minor_per_h, hourly_minor, optional,
          "An hour's price to the client");
  v.field("labour_cost_minor_per_h", &T::labour_cost_minor_per_h, hourly_minor, optional, "An hour's cost to the shop");
  v.field("trip_price_minor", &T::trip_price_minor, Number{0, 1e9, "minor units"}, optional,
          "A trip's price, beside the time on the road");
  v.field("trip_cost_minor", &T::trip_cost_minor, Number{0, 1e9, "minor units"}, optional, "A trip's cost to the shop");
  v.field("sundries_cost_minor", &T::sundries_cost_minor, amount_minor_rule, optional,
          "A lump for small goods that the list of materials does not count");
  v.field("crew_size", &T::crew_size, Number{1, 100, "people"}, optional, "Who drive out together");
  v.field("trips", &T::trips, Number{0, 1000}, optional,
          "Trips to the site; where absent the days that the work takes, and one for the night visit");
  v.field("trip_h", &T::trip_h, Number{0, 24, "h"}, optional, "On the road, there and back, each person");
  v.field("work_day_h", &T::work_day_h, Number{0, 24, "h", true}, optional, "Worked on site in a day, each person");
  v.field("night_visit_h", &T::night_visit_h, Number{0, 24, "h"}, optional, "The night visit, each person");
  v.field("night_visit_people", &T::night_visit_people, Number{0, 100, "people"}, optional,
          "Who come to the night visit");
  v.field("commissioning_min_per_lamp", &T::commissioning_min_per_lamp, Number{0, 1000, "min"}, optional,
          "Measuring and aiming, each lamp");
  v.field("commissioning_min_per_output", &T::commissioning_min_per_output, Number{0, 1000, "min"}, optional,
          "Measuring, each output of a transformer");
  v.field("trenches", &T::trenches, List{100}, optional, "Grounds that this shop digs faster or slower than is usual");
}

template <class Visitor>
void describe(Of<job::Margins>, Visitor& v) {
  using T = job::Margins;
  v.field("material_markup_pct", &T::material_markup_pct, percent, optional, "Added to material");
  v.field("overhead_pct", &T::overhead_pct, percent, optional,
          "The shop's running costs, on top of what the job costs: lowers the margin, not the price");
  v.field("margin_floor_pct", &T::margin_floor_pct, Number{0, 100, "%"}, optional, "Lowest margin without a warning");
  v.field("contingency_pct", &T::contingency_pct, percent, optional,
          "Hours added for the unknown; where absent by the soil of the site");
  v.field("tax_pct", &T::tax_pct, percent, optional, "Tax on the price");
  v.field("tax_on", &T::tax_on, OneOf{}, optional, "What is taxed; where absent the whole price");
  v.field("tax_name", &T::tax_name, Text{100}, optional, "What the tax is called");
}

template <class Visitor>
void describe(Of<job::Warranty>, Visitor& v) {
  using T = job::Warranty;
  v.field("subject", &T::subject, Text{200}, required, "What is warranted");
  v.field("years", &T::years, Number{0, 100, "years"}, required, "For how long");
}

template <class Visitor>
void describe(Of<job::Terms>, Visitor& v) {
  using T = job::Terms;
  v.field("deposit_pct", &T::deposit_pct, Number{0, 100, "%"}, optional, "Due on signing");
  v.field("deposit_cap_minor", &T::deposit_cap_minor, amount_minor_rule, optional, "Highest deposit");
  v.field("deposit_rule", &T::deposit_rule, other_id, optional, "Rule of the data that limits the deposit");
  v.field("valid_days", &T::valid_days, Number{0, 3650, "days"}, optional, "How long the offer stands");
  v.field("exclusions", &T::exclusions, Texts{{2000}, 200}, optional, "What the price does not cover");
  v.field("warranties", &T::warranties, List{100}, optional, "What is warranted for how long");
  v.field("text", &T::text, Text{100'000}, optional, "Further wording");
}

template <class Visitor>
void describe(Of<job::ItemSwap>, Visitor& v) {
  using T = job::ItemSwap;
  v.field("item", &T::item, other_id, required, "Luminaire item that is replaced");
  v.field("with", &T::with, other_id, required, "Luminaire item in its place, of the job's catalogue or the stock");
}

template <class Visitor>
void describe(Of<job::OfferOption>, Visitor& v) {
  using T = job::OfferOption;
  v.field("id", &T::id, Id{Kind::offer_option}, required, "Id of the option");
  v.field("kind", &T::kind, OneOf{}, optional,
          "A part is taken or left, a phase follows the phase before it, a variant stands for the whole");
  v.field("title", &T::title, Text{200}, optional, "Name for people");
  v.field("text", &T::text, Text{20'000}, optional, "What it gives");
  v.field("luminaires", &T::luminaires, Texts{other_id, 20'000}, optional, "Luminaires that belong to it");
  v.field("swaps", &T::swaps, List{100}, optional, "Items that it has in place of others");
  v.field("chosen", &T::chosen, Flag{}, optional, "The client took it");
}

template <class Visitor>
void describe(Of<job::OfferExtra>, Visitor& v) {
  using T = job::OfferExtra;
  v.field("id", &T::id, other_id, required, "Id of the line");
  v.field("title", &T::title, Text{200}, required, "What it is for");
  v.field("price_minor", &T::price_minor, Number{-1e12, 1e12, "minor units"}, required,
          "Price to the client; negative: a reduction");
  v.field("cost_minor", &T::cost_minor, amount_minor_rule, optional, "Cost to the shop");
}

template <class Visitor>
void describe(Of<job::Offer>, Visitor& v) {
  using T = job::Offer;
  v.field("number", &T::number, Text{100}, optional, "The shop's own number");
  v.field("date", &T::date, Text{10, Form::date}, optional, "When it was made");
  v.field("rates", &T::rates, Part{}, optional, "Prices and costs of time");
  v.field("margins", &T::margins, Part{}, optional, "Mark-up, floor, contingency, tax");
  v.field("terms", &T::terms, Part{}, optional, "Deposit, validity, exclusions, warranties");
  v.field("options", &T::options, List{100}, optional, "What the client may choose from");
  v.field("extras", &T::extras, List{100}, optional, "Lines that no quantity of the plan gives");
}

}  // namespace duskwire::formats
