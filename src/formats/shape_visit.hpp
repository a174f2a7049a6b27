// SPDX-License-Identifier: Apache-2.0
// The shape of a visit. Ids that it names are not looked up: it may tell of a lamp long gone.
#pragma once

#include <iterator>

#include "formats/enum_names.hpp"
#include "formats/shape.hpp"
#include "job/visit.hpp"

namespace duskwire::formats {

inline constexpr const char* reading_quantities[] = {"voltage",       "current",     "mains_voltage",
                                                     "mains_current", "power",       "apparent_power",
                                                     "resistance",    "illuminance", "temperature"};
inline constexpr const char* reading_units[] = {"V", "A", "W", "VA", "ohm", "lx", "C"};

template <class Visitor>
void describe(Of<job::Reading>, Visitor& v) {
  using T = job::Reading;
  v.field("place", &T::place, other_id, required, "Output, joint, luminaire, cable, transformer or receptacle");
  v.field("quantity", &T::quantity, Choice{std::begin(reading_quantities), std::end(reading_quantities)}, required,
          "What was measured");
  v.field("value", &T::value, Number{-1e6, 1e6, "as `unit` says"}, required, "The reading");
  v.field("unit", &T::unit, Choice{std::begin(reading_units), std::end(reading_units)}, required, "Unit of the value");
  v.field("note", &T::note, Text{2000}, optional, "Anything else");
}

template <class Visitor>
void describe(Of<job::Visit>, Visitor& v) {
  using T = job::Visit;
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
