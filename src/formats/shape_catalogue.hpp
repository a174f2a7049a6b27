// SPDX-License-Identifier: Apache-2.0
// The shape of catalogue items: fields, units, ranges, meanings.
#pragma once

#include "formats/enum_names.hpp"
#include "formats/shape.hpp"
#include "job/catalogue.hpp"

namespace duskwire::formats {

inline constexpr Number price{0, 1e9, "minor units of the currency"};
inline constexpr Number labour{0, 10'000, "min"};
// A table of 2.5 by 2.5 degrees over the whole sphere takes some 75,000.
inline constexpr std::uint32_t longest_intensity_file = 200'000;
inline constexpr Number low_volts{0, 60, "V"};
inline constexpr Number conductor_area{0, 100, "mm2"};

template <class Visitor>
void describe(Of<job::LuminaireItem>, Visitor& v) {
  using T = job::LuminaireItem;
  v.field("id", &T::id, Id{Kind::luminaire_item}, required, "Key within the catalogue");
  v.field("title", &T::title, Text{200}, optional, "Name for people");
  v.field("kind", &T::kind, OneOf{}, required, "What the article does");
  v.field("lamp", &T::lamp, OneOf{}, required, "How its current follows the voltage");
  v.field("power_w", &T::power_w, Number{0, 2000, "W"}, required, "Real power at rated volts");
  v.field("power_va", &T::power_va, Number{0, 2000, "VA"}, required, "Apparent power, no less than power_w");
  v.field("rated_v", &T::rated_v, Number{0, 60, "V", true}, optional, "Rated voltage");
  v.field("window_min_v", &T::window_min_v, low_volts, required, "Lowest voltage that the lamp should see");
  v.field("window_max_v", &T::window_max_v, Number{0, 60, "V", true}, required,
          "Highest voltage that the lamp should see");
  v.field("v_cut_off", &T::v_cut_off, low_volts, optional, "LED kinds: dark below this voltage");
  v.field("v_regulation_min", &T::v_regulation_min, low_volts, optional,
          "Full light from this voltage up; LED kinds need it");
  v.field("flux_lm", &T::flux_lm, Number{0, 100'000, "lm"}, optional, "Luminous flux at full light");
  v.field("beam_deg", &T::beam_deg, Number{0, 360, "deg"}, optional,
          "Full angle at half intensity; 360 for light all round, 0 where not known");
  v.field("beam_shape", &T::beam_shape, OneOf{}, optional,
          "How it spreads its light where no intensity file says so; by_kind: as is usual for its kind and beam");
  v.field("intensity_file", &T::intensity_file, Text{longest_intensity_file}, optional,
          "Text of an LM-63 or EULUMDAT file; it goes before beam_shape, beam_deg and flux_lm");
  v.field("colour_temperature_k", &T::colour_temperature_k, Number{1000, 20'000, "K"}, optional,
          "Correlated colour temperature");
  v.field("mounting_height_m", &T::mounting_height_m, Number{-10, 60, "m"}, optional,
          "Usual height of the light centre over grade");
  v.field("lead_length_m", &T::lead_length_m, Number{0, 100, "m"}, optional, "Length of the lead that it comes with");
  v.field("lead_area_mm2", &T::lead_area_mm2, conductor_area, optional, "Conductor area of that lead");
  v.field("price_minor", &T::price_minor, price, optional, "Price to the client");
  v.field("labour_min", &T::labour_min, labour, optional, "Time to mount one");
  v.field("underwater_listed", &T::underwater_listed, Flag{}, optional, "Listed for use under water");
}

template <class Visitor>
void describe(Of<job::TransformerItem>, Visitor& v) {
  using T = job::TransformerItem;
  v.field("id", &T::id, Id{Kind::transformer_item}, required, "Key within the catalogue");
  v.field("title", &T::title, Text{200}, optional, "Name for people");
  v.field("rating_va", &T::rating_va, Number{0, 20'000, "VA", true}, required, "Rating of the whole");
  v.field("output_count", &T::output_count, Number{1, 16, ""}, optional,
          "Secondary circuits, each with its own protection");
  v.field("output_limit_a", &T::output_limit_a, Number{0, 500, "A", true}, optional,
          "What the protection of one output allows");
  v.field("taps_v", &T::taps_v, Numbers{{0, 60, "V", true}, 1, 24, true}, required,
          "No-load volts at nominal mains, ascending");
  v.field("r_own_ohm", &T::r_own_ohm, Number{0, 10, "ohm"}, optional, "Winding and lugs of one output");
  v.field("r_shared_ohm", &T::r_shared_ohm, Number{0, 10, "ohm"}, optional,
          "Resistance that all outputs have in common");
  v.field("efficiency", &T::efficiency, Number{0, 1, "", true}, optional, "At full load, as a share");
  v.field("core_loss_w", &T::core_loss_w, Number{0, 1000, "W"}, optional, "Loss without load");
  v.field("outdoor_listed", &T::outdoor_listed, Flag{}, optional, "Listed for use outdoors");
  v.field("pool_listed", &T::pool_listed, Flag{}, optional, "Listed for pools");
  v.field("price_minor", &T::price_minor, price, optional, "Price to the client");
  v.field("labour_min", &T::labour_min, labour, optional, "Time to hang and wire one");
}

template <class Visitor>
void describe(Of<job::CableItem>, Visitor& v) {
  using T = job::CableItem;
  v.field("id", &T::id, Id{Kind::cable_item}, required, "Key within the catalogue");
  v.field("title", &T::title, Text{200}, optional, "Name for people");
  v.field("area_mm2", &T::area_mm2, Number{0, 100, "mm2", true}, required, "Area of one conductor");
  v.field("gauge_awg", &T::gauge_awg, Number{-3, 40, "AWG"}, optional,
          "Where it is sold by gauge; -1, -2, -3 stand for 2/0, 3/0, 4/0");
  v.field("ohm_per_m_20c", &T::ohm_per_m_20c, Number{0, 10, "ohm/m", true}, required,
          "Resistance of one conductor at 20 C");
  v.field("ampacity_a", &T::ampacity_a, Number{0, 1000, "A"}, optional,
          "Current limit where the ruleset has none; 0: not known");
  v.field("outer_diameter_mm", &T::outer_diameter_mm, Number{0, 200, "mm"}, optional, "Diameter of the whole cable");
  v.field("direct_burial", &T::direct_burial, Flag{}, optional, "May lie in the ground without a sleeve");
  v.field("sold_step_m", &T::sold_step_m, Number{0, 10'000, "m", true}, optional, "Orders are rounded up to this");
  v.field("price_minor_per_m", &T::price_minor_per_m, price, optional, "Price of a metre to the client");
  v.field("labour_min_per_m", &T::labour_min_per_m, labour, optional, "Time to lay a metre in easy ground");
}

template <class Visitor>
void describe(Of<job::ConnectorFill>, Visitor& v) {
  using T = job::ConnectorFill;
  v.field("area_min_mm2", &T::area_min_mm2, conductor_area, required, "Thinnest conductor that it holds");
  v.field("area_max_mm2", &T::area_max_mm2, Number{0, 100, "mm2", true}, required, "Thickest conductor that it holds");
  v.field("count_min", &T::count_min, Number{1, 100, "conductors"}, optional, "Fewest conductors");
  v.field("count_max", &T::count_max, Number{1, 100, "conductors"}, optional, "Most conductors");
}

template <class Visitor>
void describe(Of<job::ConnectorItem>, Visitor& v) {
  using T = job::ConnectorItem;
  v.field("id", &T::id, Id{Kind::connector_item}, required, "Key within the catalogue");
  v.field("title", &T::title, Text{200}, optional, "Name for people");
  v.field("fills", &T::fills, List{100}, optional, "How many conductors of which size it holds; any one may apply");
  v.field("sealed", &T::sealed, Flag{}, optional, "Listed for direct burial or wet places");
  v.field("mechanically_held", &T::mechanically_held, Flag{}, optional, "Holds the wires by itself");
  v.field("serves_both_conductors", &T::serves_both_conductors, Flag{}, optional,
          "A hub box: one piece serves conductors A and B, kept apart");
  v.field("contact_ohm", &T::contact_ohm, Number{0, 10, "ohm"}, optional, "Resistance per wire, when good");
  v.field("price_minor", &T::price_minor, price, optional, "Price to the client");
  v.field("labour_min", &T::labour_min, labour, optional, "Time to make one");
}

template <class Visitor>
void describe(Of<job::ControlItem>, Visitor& v) {
  using T = job::ControlItem;
  v.field("id", &T::id, Id{Kind::control_item}, required, "Key within the catalogue");
  v.field("title", &T::title, Text{200}, optional, "Name for people");
  v.field("kind", &T::kind, OneOf{}, required, "What the article does");
  v.field("price_minor", &T::price_minor, price, optional, "Price to the client");
  v.field("labour_min", &T::labour_min, labour, optional, "Time to fit one");
}

template <class Visitor>
void describe(Of<job::SundryItem>, Visitor& v) {
  using T = job::SundryItem;
  static constexpr const char* units[] = {"piece", "m"};
  v.field("id", &T::id, Id{Kind::sundry_item}, required, "Key within the catalogue");
  v.field("title", &T::title, Text{200}, optional, "Name for people");
  v.field("kind", &T::kind, OneOf{}, required, "What the article does");
  v.field("unit", &T::unit, Choice{std::begin(units), std::end(units)}, optional, "What is counted");
  v.field("price_minor", &T::price_minor, price, optional, "Price of one unit to the client");
  v.field("labour_min", &T::labour_min, labour, optional, "Time for one unit");
}

template <class Visitor>
void describe(Of<job::Catalogue>, Visitor& v) {
  using T = job::Catalogue;
  v.field("currency", &T::currency, Text{3, Form::currency}, optional, "Currency of all prices, ISO 4217");
  v.field("luminaires", &T::luminaires, List{5000}, optional, "Fixtures and lamps");
  v.field("transformers", &T::transformers, List{1000}, optional, "Transformers");
  v.field("cables", &T::cables, List{1000}, optional, "Cables");
  v.field("connectors", &T::connectors, List{1000}, optional, "Connectors");
  v.field("controls", &T::controls, List{1000}, optional, "Timers, photocells and the like");
  v.field("sundries", &T::sundries, List{2000}, optional, "Stakes, staples, sleeves and the like");
}

}  // namespace duskwire::formats
