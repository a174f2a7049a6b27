// SPDX-License-Identifier: Apache-2.0
// The shape of the reserved parts. Ids that they name are not looked up: a visit may tell of a lamp long gone.
#pragma once

#include <iterator>

#include "formats/enum_names.hpp"
#include "formats/reserved.hpp"
#include "formats/shape.hpp"

namespace duskwire::formats {

constexpr auto names(Of<SwitchBase>) { return std::array{"clock", "sunset", "sunrise"}; }
constexpr auto names(Of<VisitKind>) {
  return std::array{"survey", "installation", "commissioning", "night_visit", "hand_over", "care", "service", "other"};
}

inline constexpr Number percent{0, 1000, "%"};

template <class Visitor>
void describe(Of<SwitchRule>, Visitor& v) {
  using T = SwitchRule;
  v.field("at", &T::at, OneOf{}, required, "What the moment is counted from");
  v.field("time", &T::time, Text{5, Form::clock}, optional, "Time of day, where `at` is clock");
  v.field("offset_min", &T::offset_min, Number{-720, 720, "min"}, optional, "After sunset or sunrise; negative before");
}

template <class Visitor>
void describe(Of<ProgrammeEntry>, Visitor& v) {
  using T = ProgrammeEntry;
  v.field("id", &T::id, Id{Kind::programme_entry}, required, "Id of the entry");
  v.field("name", &T::name, Text{200}, optional, "Name for people");
  v.field("zones", &T::zones, Texts{{200}, 100}, optional, "Zones of luminaires that it switches; none: all");
  v.field("transformers", &T::transformers, Texts{other_id, 100}, optional, "Transformers that it switches; none: all");
  v.field("days", &T::days, Texts{{3, Form::weekday}, 7}, optional, "Days of the week, mon to sun; none: every day");
  v.field("from_day", &T::from_day, Text{5, Form::month_day}, optional, "First day of its season");
  v.field("to_day", &T::to_day, Text{5, Form::month_day}, optional, "Last day of its season");
  v.field("on", &T::on, Part{}, required, "When it switches on");
  v.field("off", &T::off, Part{}, required, "When it switches off");
  v.field("dim_pct", &T::dim_pct, Number{0, 100, "%"}, optional, "Dimmed to");
}

template <class Visitor>
void describe(Of<Rates>, Visitor& v) {
  using T = Rates;
  v.field("labour_price_minor_per_h", &T::labour_price_minor_per_h, Number{0, 1e9, "minor units per hour"}, optional,
          "An hour's price to the client");
  v.field("labour_cost_minor_per_h", &T::labour_cost_minor_per_h, Number{0, 1e9, "minor units per hour"}, optional,
          "An hour's cost to the shop");
  v.field("trip_price_minor", &T::trip_price_minor, Number{0, 1e9, "minor units"}, optional, "A trip's price");
}

template <class Visitor>
void describe(Of<Margins>, Visitor& v) {
  using T = Margins;
  v.field("material_markup_pct", &T::material_markup_pct, percent, optional, "Added to material");
  v.field("margin_floor_pct", &T::margin_floor_pct, Number{0, 100, "%"}, optional, "Lowest margin without a warning");
  v.field("contingency_pct", &T::contingency_pct, percent, optional, "Added for the unknown, by soil");
  v.field("tax_pct", &T::tax_pct, percent, optional, "Tax on the price");
}

template <class Visitor>
void describe(Of<Warranty>, Visitor& v) {
  using T = Warranty;
  v.field("subject", &T::subject, Text{200}, required, "What is warranted");
  v.field("years", &T::years, Number{0, 100, "years"}, required, "For how long");
}

template <class Visitor>
void describe(Of<Terms>, Visitor& v) {
  using T = Terms;
  v.field("deposit_pct", &T::deposit_pct, Number{0, 100, "%"}, optional, "Due on signing");
  v.field("deposit_cap_minor", &T::deposit_cap_minor, Number{0, 1e12, "minor units"}, optional, "Highest deposit");
  v.field("valid_days", &T::valid_days, Number{0, 3650, "days"}, optional, "How long the offer stands");
  v.field("exclusions", &T::exclusions, Texts{{2000}, 200}, optional, "What the price does not cover");
  v.field("warranties", &T::warranties, List{100}, optional, "What is warranted for how long");
  v.field("text", &T::text, Text{100'000}, optional, "Further wording");
}

template <class Visitor>
void describe(Of<OfferOption>, Visitor& v) {
  using T = OfferOption;
  v.field("id", &T::id, Id{Kind::offer_option}, required, "Id of the option");
  v.field("title", &T::title, Text{200}, optional, "Name for people");
  v.field("text", &T::text, Text{20'000}, optional, "What it gives");
  v.field("luminaires", &T::luminaires, Texts{other_id, 20'000}, optional, "Luminaires that belong to it");
  v.field("chosen", &T::chosen, Flag{}, optional, "The client took it");
}

template <class Visitor>
void describe(Of<Offer>, Visitor& v) {
  using T = Offer;
  v.field("number", &T::number, Text{100}, optional, "The shop's own number");
  v.field("date", &T::date, Text{10, Form::date}, optional, "When it was made");
  v.field("rates", &T::rates, Part{}, optional, "Prices and costs of time");
  v.field("margins", &T::margins, Part{}, optional, "Mark-up, floor, contingency, tax");
  v.field("terms", &T::terms, Part{}, optional, "Deposit, validity, exclusions, warranties");
  v.field("options", &T::options, List{100}, optional, "Parts that the client may take or leave");
}

inline constexpr const char* reading_quantities[] = {"voltage",       "current",     "mains_voltage",
                                                     "mains_current", "power",       "apparent_power",
                                                     "resistance",    "illuminance", "temperature"};
inline constexpr const char* reading_units[] = {"V", "A", "W", "VA", "ohm", "lx", "C"};

template <class Visitor>
void describe(Of<Reading>, Visitor& v) {
  using T = Reading;
  v.field("place", &T::place, other_id, required, "Output, joint, luminaire, cable, transformer or receptacle");
  v.field("quantity", &T::quantity, Choice{std::begin(reading_quantities), std::end(reading_quantities)}, required,
          "What was measured");
  v.field("value", &T::value, Number{-1e6, 1e6, "as `unit` says"}, required, "The reading");
  v.field("unit", &T::unit, Choice{std::begin(reading_units), std::end(reading_units)}, required, "Unit of the value");
  v.field("note", &T::note, Text{2000}, optional, "Anything else");
}

template <class Visitor>
void describe(Of<Visit>, Visitor& v) {
  using T = Visit;
  v.field("date", &T::date, Text{40, Form::date_or_time}, required, "When it was");
  v.field("kind", &T::kind, OneOf{}, required, "What it was for");
  v.field("by", &T::by, Text{200}, optional, "Who was there");
  v.field("meter", &T::meter, Text{200}, optional, "What was measured with");
  v.field("weather", &T::weather, Text{200}, optional, "Weather and soil");
  v.field("readings", &T::readings, List{10'000}, optional, "What was measured");
  v.field("pictures", &T::pictures, Texts{{500}, 1000}, optional, "Content hashes or file names");
  v.field("notes", &T::notes, Text{50'000}, optional, "Anything else");
}

}  // namespace duskwire::formats
