// SPDX-License-Identifier: Apache-2.0
// The shape of results: describe_result(Of<T>, visitor) names each field of T with its meaning. One visitor writes them
// as JSON, another makes the tables of docs/results.md. Results are only written, never read.
#pragma once

#include "formats/enum_names.hpp"
#include "formats/shape.hpp"
#include "study/report.hpp"

namespace duskwire::formats {

constexpr auto names(Of<electrical::LampState>) { return std::array{"off", "dim", "regulated", "over"}; }

template <class Visitor>
void describe_result(Of<study::LampReport>, Visitor& v) {
  using T = study::LampReport;
  v.result("id", &T::id, "Id of the luminaire");
  v.result("nominal_v", &T::nominal_v, "Volts at the lamp, nominal");
  v.result("worst_low_v", &T::worst_low_v, "Lowest volts over the corners");
  v.result("worst_high_v", &T::worst_high_v, "Highest volts over the corners");
  v.result("worst_low_corner", &T::worst_low_corner, "The corner of the lowest, in words");
  v.result("worst_high_corner", &T::worst_high_corner, "The corner of the highest, in words");
  v.result("window_min_v", &T::window_min_v, "Lowest volts that the lamp should see");
  v.result("window_max_v", &T::window_max_v, "Highest volts that the lamp should see");
  v.result("current_a", &T::current_a, "Current, nominal");
  v.result("state", &T::state, "State, nominal");
  v.result("worst_state", &T::worst_state, "State at worst_low_v, or `over` at worst_high_v");
  v.result("light", &T::light, "Share of full light, nominal");
  v.result("output", &T::output, "Output that feeds it; empty: none");
  v.result("distance_m", &T::distance_m, "Distance along the cables from the transformer");
}

template <class Visitor>
void describe_result(Of<study::CableReport>, Visitor& v) {
  using T = study::CableReport;
  v.result("id", &T::id, "Id of the cable");
  v.result("length_m", &T::length_m, "Length with slack: what the current runs through");
  v.result("current_a", &T::current_a, "The larger of both conductors' currents, nominal");
  v.result("worst_current_a", &T::worst_current_a, "The same over the corners");
  v.result("drop_v", &T::drop_v, "Drop in both conductors, nominal");
  v.result("loss_w", &T::loss_w, "Loss in both conductors, nominal");
  v.result("from_v", &T::from_v, "Volts at `from`, nominal");
  v.result("to_v", &T::to_v, "Volts at `to`, nominal");
  v.result("output", &T::output, "Output that feeds it; empty: none");
}

template <class Visitor>
void describe_result(Of<study::OutputReport>, Visitor& v) {
  using T = study::OutputReport;
  v.result("id", &T::id, "Id of the output");
  v.result("transformer", &T::transformer, "Id of its transformer");
  v.result("tap_v", &T::tap_v, "Tap in use");
  v.result("terminal_v", &T::terminal_v, "Volts at the terminals under load, nominal");
  v.result("current_a", &T::current_a, "Current, nominal");
  v.result("worst_current_a", &T::worst_current_a, "Highest current over the corners");
  v.result("limit_a", &T::limit_a, "What its protection allows; 0: none");
  v.result("load_share", &T::load_share, "Highest current over the limit");
  v.result("lowest_lamp_v", &T::lowest_lamp_v, "Lowest volts over its lamps and the corners");
  v.result("highest_lamp_v", &T::highest_lamp_v, "Highest volts over its lamps and the corners");
  v.result("lamp_count", &T::lamp_count, "Lamps that it feeds");
  v.result("far_short_a", &T::far_short_a, "Least current of a bolted short at any point of this output");
  v.result("far_short_at", &T::far_short_at, "Where that is: joint or luminaire");
}

template <class Visitor>
void describe_result(Of<study::TransformerReport>, Visitor& v) {
  using T = study::TransformerReport;
  v.result("id", &T::id, "Id of the transformer");
  v.result("lamp_va", &T::lamp_va, "Sum of its lamps' rated VA");
  v.result("load_va", &T::load_va, "VA delivered at the taps, nominal");
  v.result("worst_load_va", &T::worst_load_va, "The same, highest over the corners");
  v.result("rating_va", &T::rating_va, "Its rating");
  v.result("headroom_va", &T::headroom_va, "Rating less highest load");
  v.result("load_share", &T::load_share, "Highest load over rating");
  v.result("copper_loss_w", &T::copper_loss_w, "Loss in its windings");
  v.result("core_loss_w", &T::core_loss_w, "Loss without load");
  v.result("cable_loss_w", &T::cable_loss_w, "Loss in the cables that it feeds");
  v.result("input_w", &T::input_w, "Estimate of the power from the mains: lamps' watts and losses");
}

template <class Visitor>
void describe_result(Of<study::CornerReport>, Visitor& v) {
  using T = study::CornerReport;
  v.result("name", &T::name, "The corner in words");
  v.result("mains_factor", &T::mains_factor, "Mains over nominal mains");
  v.result("cable_c", &T::cable_c, "Conductor temperature");
  v.result("length_factor", &T::length_factor, "Cable length over nominal length");
  v.result("lowest_v", &T::lowest_v, "Lowest volts of any lamp");
  v.result("lowest_lamp", &T::lowest_lamp, "The lamp that sees them");
  v.result("highest_v", &T::highest_v, "Highest volts of any lamp");
  v.result("highest_lamp", &T::highest_lamp, "The lamp that sees them");
  v.result("converged", &T::converged, "A steady state was found");
}

template <class Visitor>
void describe_result(Of<study::MarginReport>, Visitor& v) {
  using T = study::MarginReport;
  v.result("load_factor", &T::load_factor,
           "Factor by which all loads may grow before a lamp leaves regulation; 0: one is out already");
  v.result("load_beyond_cap", &T::load_beyond_cap, "The search ended at its cap: the true factor is higher");
  v.result("load_first_lamp", &T::load_first_lamp, "The first lamp to leave");
  v.result("length_factor", &T::length_factor, "The same for all cable lengths");
  v.result("length_beyond_cap", &T::length_beyond_cap, "The search ended at its cap: the true factor is higher");
  v.result("length_first_lamp", &T::length_first_lamp, "The first lamp to leave");
}

template <class Visitor>
void describe_result(Of<study::ShortReport>, Visitor& v) {
  using T = study::ShortReport;
  v.result("place", &T::place, "Where the short is: joint or luminaire");
  v.result("output", &T::output, "Output that feeds it");
  v.result("current_a", &T::current_a, "Bolted-short current that the output's protection sees, in the worst corner");
  v.result("limit_a", &T::limit_a, "What the protection allows; 0: none");
}

template <class Visitor>
void describe_result(Of<study::Provenance>, Visitor& v) {
  using T = study::Provenance;
  v.result("clause", &T::clause, "Document and clause that the limit comes from");
  v.result("edition", &T::edition, "Edition of that document");
  v.result("status", &T::status, "seen; from memory; common practice, no source; computed");
  v.result("note", &T::note, "Anything else");
}

template <class Visitor>
void describe_result(Of<study::Cure>, Visitor& v) {
  using T = study::Cure;
  v.result("text", &T::text, "What to do and what it gives");
  v.result("changes", &T::changes, "The same as changes of the job");
}

template <class Visitor>
void describe_result(Of<study::Finding>, Visitor& v) {
  using T = study::Finding;
  v.result("id", &T::id, "Stable id of the check");
  v.result("severity", &T::severity, "How bad it is");
  v.result("subject", &T::subject, "Id of the object in the job");
  v.result("pointer", &T::pointer, "JSON pointer of that object in the job document");
  v.result("message", &T::message, "One or two sentences in the job's display units");
  v.result("measured", &T::measured, "What was found, SI");
  v.result("limit", &T::limit, "What would be allowed, SI");
  v.result("unit", &T::unit, "Unit of both");
  v.result("provenance", &T::provenance, "Where the limit comes from");
  v.result("cures", &T::cures, "Changes that were tried and cure it, best first; none: the message says so");
}

template <class Visitor>
void describe_result(Of<study::Report>, Visitor& v) {
  using T = study::Report;
  v.result("lamps", &T::lamps, "Each luminaire");
  v.result("cables", &T::cables, "Each cable");
  v.result("outputs", &T::outputs, "Each output");
  v.result("transformers", &T::transformers, "Each transformer");
  v.result("corners", &T::corners, "Each corner, nominal first");
  v.result("shorts", &T::shorts, "A bolted short at each place");
  v.result("margin", &T::margin, "How far the wiring is from collapse, nominal");
  v.result("findings", &T::findings, "What is wrong, errors first");
  v.result("lamp_va", &T::lamp_va, "Sum of all lamps' rated VA");
  v.result("sound", &T::sound, "No finding is an error");
}

}  // namespace duskwire::formats
