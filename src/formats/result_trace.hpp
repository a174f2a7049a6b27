// SPDX-License-Identifier: Apache-2.0
// The shape of what trace answers, and of what it is asked.
#pragma once

#include "formats/result_shape.hpp"
#include "formats/shape_visit.hpp"
#include "study/trace.hpp"

namespace duskwire::formats {

constexpr const char* type_name(Of<study::TraceRequest>) { return "trace_request"; }
constexpr const char* type_name(Of<study::WalkedRun>) { return "walked_run"; }
constexpr const char* type_name(Of<study::WalkedWay>) { return "walked_way"; }
constexpr const char* type_name(Of<study::WalkedClamp>) { return "walked_clamp"; }

inline constexpr Number amperes{0, 400, "A"};

template <class Visitor>
void describe(Of<study::WalkedWay>, Visitor& v) {
  using T = study::WalkedWay;
  v.field("path", &T::path, Places{2, false}, required,
          "What the locator followed; a run's first way begins at the transformer, each other one at an earlier one");
}

template <class Visitor>
void describe(Of<study::WalkedClamp>, Visitor& v) {
  using T = study::WalkedClamp;
  v.field("at", &T::at, Place{}, required, "Where the cable was laid bare");
  v.field("current_a", &T::current_a, amperes, required, "In one conductor, lamps on");
}

template <class Visitor>
void describe(Of<study::WalkedRun>, Visitor& v) {
  using T = study::WalkedRun;
  v.field("id", &T::id, other_id, required, "What the run is called");
  v.field("output", &T::output, other_id, required, "Output that it leaves");
  v.field("item", &T::item, other_id, optional, "Cable item, where the print on the jacket told");
  v.field("current_a", &T::current_a, amperes, optional, "In one conductor where it leaves the transformer, lamps on");
  v.field("ways", &T::ways, List{200}, required, "What was walked of it");
  v.field("clamps", &T::clamps, List{200}, optional, "Amperes along its way");
  v.field("went_dark", &T::went_dark, Texts{other_id, 5000}, optional, "Luminaires, while this run alone was lifted");
  v.field("stayed_lit", &T::stayed_lit, Texts{other_id, 5000}, optional, "Luminaires, while this run alone was lifted");
}

template <class Visitor>
void describe(Of<study::TraceRequest>, Visitor& v) {
  using T = study::TraceRequest;
  v.field("visit", &T::visit, Number{0, 5000, ""}, optional, "Index of the visit whose volts count too");
  v.field("runs", &T::runs, List{100}, required, "Each cable that leaves a transformer");
  v.field("readings", &T::readings, List{10'000}, optional, "Volts at outputs and luminaires, as in a visit");
}

template <class Visitor>
void describe_result(Of<study::PlaceFound>, Visitor& v) {
  using T = study::PlaceFound;
  v.result("run", &T::run, "Id of the run");
  v.result("x_m", &T::x_m, "Where it may be spliced: east");
  v.result("y_m", &T::y_m, "and north");
  v.result("from_transformer_m", &T::from_transformer_m, "Along what was walked");
  v.result("lead_m", &T::lead_m, "From there to the lamp");
  v.result("chance", &T::chance, "0 to 1");
}

template <class Visitor>
void describe_result(Of<study::LampFound>, Visitor& v) {
  using T = study::LampFound;
  v.result("id", &T::id, "Id of the luminaire");
  v.result("text", &T::text, "In words");
  v.result("run", &T::run, "The run that it most likely hangs on; empty: none that was walked");
  v.result("chance", &T::chance, "Of that, 0 to 1");
  v.result("places", &T::places, "Where it may be spliced, likeliest first");
}

template <class Visitor>
void describe_result(Of<study::CableFound>, Visitor& v) {
  using T = study::CableFound;
  v.result("item", &T::item, "Id of the cable item");
  v.result("title", &T::title, "Its title");
  v.result("chance", &T::chance, "That the run is of it, 0 to 1");
}

template <class Visitor>
void describe_result(Of<study::PartFound>, Visitor& v) {
  using T = study::PartFound;
  v.result("cable", &T::cable, "Id of the cable drawn");
  v.result("from", &T::from, "Output or joint");
  v.result("to", &T::to, "Joint");
  v.result("length_m", &T::length_m, "As walked");
  v.result("current_a", &T::current_a, "Of the lamps drawn beyond it");
  v.result("chance", &T::chance, "That it feeds any of them, 0 to 1");
  v.result("end_chance", &T::end_chance, "That any lamp drawn at its far end hangs there");
}

template <class Visitor>
void describe_result(Of<study::RunFound>, Visitor& v) {
  using T = study::RunFound;
  v.result("id", &T::id, "Id of the run");
  v.result("lamps", &T::lamps, "Ids of the luminaires that most likely hang on it");
  v.result("cables", &T::cables, "What cable it may be, likeliest first");
  v.result("parts", &T::parts, "Its cables as drawn, from the transformer on");
  v.result("measured_a", &T::measured_a, "As clamped where it leaves the transformer");
  v.result("expected_a", &T::expected_a, "Of the lamps found on it");
  v.result("chance", &T::chance, "That each of these lamps hangs on it, 0 to 1");
}

template <class Visitor>
void describe_result(Of<study::TraceStep>, Visitor& v) {
  using T = study::TraceStep;
  v.result("run", &T::run, "Id of the run");
  v.result("text", &T::text, "What to do, in words");
  v.result("information_bit", &T::information_bit, "What it would tell at most");
}

// After `job`, which is a document.
template <class Visitor>
void describe_result(Of<study::Traced>, Visitor& v) {
  using T = study::Traced;
  v.result("headline", &T::headline, "One sentence or two");
  v.result("lamps", &T::lamps, "Each lamp that was traced");
  v.result("runs", &T::runs, "Each run as found");
  v.result("remarks", &T::remarks, "What does not fit, and what was left out");
  v.result("next", &T::next, "What would tell most, best first");
  v.result("rests_on", &T::rests_on, "What the chances assume");
}

}  // namespace duskwire::formats
