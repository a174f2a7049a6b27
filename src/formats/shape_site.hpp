// SPDX-License-Identifier: Apache-2.0
// The shape of site, client and practice.
#pragma once

#include "formats/enum_names.hpp"
#include "formats/shape.hpp"
#include "job/site.hpp"

namespace duskwire::formats {

inline constexpr Number short_length{0, 100, "m"};
inline constexpr Number load_share{0, 200, "%", true};

template <class Visitor>
void describe(Of<job::Corners>, Visitor& v) {
  using T = job::Corners;
  v.field("mains_tolerance_pct", &T::mains_tolerance_pct, Number{0, 50, "%"}, optional,
          "Mains may be this much above and below nominal");
  v.field("cable_nominal_c", &T::cable_nominal_c, Number{-60, 120, "C"}, optional,
          "Conductor temperature of the nominal case");
  v.field("cable_cold_c", &T::cable_cold_c, Number{-60, 120, "C"}, optional, "Coldest conductor");
  v.field("cable_hot_c", &T::cable_hot_c, Number{-60, 120, "C"}, optional, "Hottest conductor");
  v.field("length_tolerance_pct", &T::length_tolerance_pct, Number{0, 50, "%"}, optional,
          "Cables may be this much longer and shorter");
  v.field("few_lamps", &T::few_lamps, Flag{}, optional, "Also judge each lamp alone on");
}

template <class Visitor>
void describe(Of<job::Site>, Visitor& v) {
  using T = job::Site;
  v.field("latitude_deg", &T::latitude_deg, Number{-90, 90, "deg"}, optional, "North positive");
  v.field("longitude_deg", &T::longitude_deg, Number{-180, 180, "deg"}, optional, "East positive");
  v.field("time_zone", &T::time_zone, Text{64, Form::time_zone}, optional, "IANA name");
  v.field("address", &T::address, Text{500}, optional, "Where it is, in words");
  v.field("mains_v", &T::mains_v, Number{50, 500, "V"}, required, "Nominal mains voltage");
  v.field("mains_hz", &T::mains_hz, Number{40, 70, "Hz"}, required, "Mains frequency");
  v.field("ruleset", &T::ruleset, Text{longest_id, Form::name}, required, "Id of the ruleset to check against");
  v.field("units", &T::units, OneOf{}, optional, "Units shown to people; the document itself is always SI");
  v.field("currency", &T::currency, Text{3, Form::currency}, optional, "Currency of the offer, ISO 4217");
  v.field("soil", &T::soil, OneOf{}, optional, "What a spade meets: the hours for the unknown follow from it");
  v.field("corners", &T::corners, Part{}, optional, "The conditions that \"worst\" is taken over");
}

template <class Visitor>
void describe(Of<job::Wish>, Visitor& v) {
  v.field("text", &job::Wish::text, Text{5000}, required, "The client's own words");
}

template <class Visitor>
void describe(Of<job::Client>, Visitor& v) {
  using T = job::Client;
  v.field("name", &T::name, Text{200}, optional, "Name of the client");
  v.field("contact", &T::contact, Text{500}, optional, "How to reach the client");
  v.field("wishes", &T::wishes, List{1000}, optional, "What the client asked for");
  v.field("notes", &T::notes, Text{50'000}, optional, "Anything else");
}

template <class Visitor>
void describe(Of<job::Practice>, Visitor& v) {
  using T = job::Practice;
  v.field("slack_at_luminaire_m", &T::slack_at_luminaire_m, short_length, optional, "Loose cable at each fixture");
  v.field("slack_at_splice_m", &T::slack_at_splice_m, short_length, optional, "Loose cable per cable end at a splice");
  v.field("slack_at_transformer_m", &T::slack_at_transformer_m, short_length, optional,
          "Loose cable per cable end at a transformer");
  v.field("waste_pct", &T::waste_pct, Number{0, 100, "%"}, optional, "Added to cable lengths when ordering");
  v.field("transformer_load_pct", &T::transformer_load_pct, load_share, optional,
          "Highest share of a transformer's rating to be used");
  v.field("output_load_pct", &T::output_load_pct, load_share, optional,
          "Highest share of an output's limit to be used");
  v.field("staple_spacing_m", &T::staple_spacing_m, Number{0, 100, "m", true}, optional,
          "Distance between cable staples");
}

}  // namespace duskwire::formats
