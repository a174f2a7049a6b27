// SPDX-License-Identifier: Apache-2.0
// The shape of a visit. Ids that it names are not looked up: it may tell of a lamp long gone.
#pragma once

#include <iterator>

#include "formats/enum_names.hpp"
#include "formats/shape.hpp"
#include "job/visit.hpp"

namespace duskwire::formats {

inline constexpr const char* reading_quantities[] = {"voltage",     "current",        "mains_voltage", "mains_current",
                                                     "power",       "apparent_power", "resistance",    "illuminance",
                                                     "temperature", "lamp_state",     "breaker"};
inline constexpr const char* reading_units[] = {"V", "A", "W", "VA", "ohm", "lx", "C"};

constexpr auto names(Of<job::ReadingLoad>) { return std::array{"loaded", "open_circuit"}; }
constexpr auto names(Of<job::Clamped>) { return std::array{"one", "other", "net"}; }
constexpr auto names(Of<job::LogKind>) { return std::array{"facts", "reading", "strike", "sign", "backfill"}; }
constexpr auto names(Of<job::Seen>) {
  return std::array{"measured", "lit", "dim", "dark", "flickering", "tripped", "holding"};
}

template <class Visitor>
void describe(Of<job::Reading>, Visitor& v) {
  using T = job::Reading;
  v.field("place", &T::place, other_id, required, "Output, joint, luminaire, cable, transformer or receptacle");
  v.field("quantity", &T::quantity, Choice{std::begin(reading_quantities), std::end(reading_quantities)}, required,
          "What was measured");
  v.field("value", &T::value, Number{-1e6, 1e6, "as `unit` says"}, optional, "The reading");
  v.field("unit", &T::unit, Choice{std::begin(reading_units), std::end(reading_units)}, optional, "Unit of the value");
  v.field("seen", &T::seen, OneOf{}, optional,
          "Of lamp_state: lit, dim, dark, flickering; of breaker: tripped, holding");
  v.field("load", &T::load, OneOf{}, optional, "Volts with the lamps on, or with the runs lifted");
  v.field("clamped", &T::clamped, OneOf{}, optional, "Current of a cable: in one conductor, in the other, round both");
  v.field("at", &T::at, other_id, optional,
          "Volts of a cable's own conductors: the joint, luminaire or output beside which they were read");
  v.field("lifted", &T::lifted, other_id, optional, "Cable that was off its transformer meanwhile");
  v.field("time", &T::time, Text{5, Form::clock}, optional, "Time of day");
  v.field("note", &T::note, Text{2000}, optional, "Anything else");
}

template <class Visitor>
void describe(Of<job::Answers>, Visitor& v) {
  using T = job::Answers;
  v.field("age_years", &T::age_years, Number{0, 100, "years"}, optional, "Since the wiring was laid");
  v.field("new_work", &T::new_work, Flag{}, optional, "Laid or changed just now");
  v.field("rained", &T::rained, Flag{}, optional, "Wet when it happened");
  v.field("storm", &T::storm, Flag{}, optional, "Lightning before it happened");
  v.field("digging", &T::digging, Flag{}, optional,
          "Digging, planting or edging since last seen good, place not known");
  v.field("dug_near", &T::dug_near, Texts{other_id, 100}, optional, "Luminaires, joints or cables where that was");
}

template <class Visitor>
void describe(Of<job::LogEntry>, Visitor& v) {
  using T = job::LogEntry;
  v.field("id", &T::id, other_id, required, "Id of the entry");
  v.field("visit", &T::visit, other_id, required, "Id of the visit");
  v.field("device", &T::device, other_id, required, "Id of the device that wrote it");
  v.field("number", &T::number, Number{1, 1e9, ""}, required, "Of that device in that visit, from 1 without gaps");
  v.field("at", &T::at, Text{40, Form::date_or_time}, required,
          "When, UTC; never before an entry that the device had seen");
  v.field("kind", &T::kind, OneOf{}, required, "What it does");
  v.field("facts", &T::facts, Kept<>{}, optional,
          "Of facts: keys of the visit as said then, null for one that is said no longer");
  v.field("reading", &T::reading, Kept<job::Reading>{}, optional, "Of reading: what was read");
  v.field("strikes", &T::strikes, other_id, optional, "Of strike: id of the entry that counts no longer");
  v.field("signed_by", &T::signed_by, Text{200}, optional, "Of sign: who stands for the entries");
  v.field("covers", &T::covers, Number{0, 1e9, "entries"}, optional,
          "Of sign: how many entries were there; with more of them it stands no longer");
  v.field("without", &T::without, Texts{other_id, 50'000}, optional,
          "Of backfill: joints that were covered without a record");
  v.field("why", &T::why, Text{2000}, optional, "Of strike and backfill: the reason");
}

template <class Visitor>
void describe(Of<job::Visit>, Visitor& v) {
  using T = job::Visit;
  v.field("id", &T::id, other_id, optional, "Id of a visit that has a log");
  v.field("date", &T::date, Text{40, Form::date_or_time}, required, "When it was");
  v.field("kind", &T::kind, OneOf{}, required, "What it was for");
  v.field("by", &T::by, Text{200}, optional, "Who was there");
  v.field("meter", &T::meter, Text{200}, optional, "What was measured with");
  v.field("meter_accuracy_pct", &T::meter_accuracy_pct, Number{0, 20, "%"}, optional, "Of a reading in volts");
  v.field("clamp_accuracy_pct", &T::clamp_accuracy_pct, Number{0, 20, "%"}, optional, "Of a reading in amperes");
  v.field("weather", &T::weather, Text{200}, optional, "Weather and soil");
  v.field("complaint", &T::complaint, Text{5000}, optional, "What is wrong, in the owner's words");
  v.field("answers", &T::answers, Part{}, optional, "What the owner and the garden tell");
  v.field("readings", &T::readings, List{10'000}, optional, "What was measured");
  v.field("pictures", &T::pictures, Texts{{500}, 1000}, optional, "Content hashes or file names");
  v.field("notes", &T::notes, Text{50'000}, optional, "Anything else");
  v.field("signed_off", &T::signed_off, Text{200}, optional, "Who stands for the readings, and since when");
  v.field("log", &T::log, List{50'000}, optional, "Its log: entries are added, never changed");
}

}  // namespace duskwire::formats
