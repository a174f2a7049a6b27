// SPDX-License-Identifier: Apache-2.0
// The shape of what locate answers.
#pragma once

#include "formats/result_shape.hpp"
#include "formats/shape_visit.hpp"
#include "study/locate.hpp"

namespace duskwire::formats {

constexpr auto names(Of<diagnosis::Verdict>) {
  return std::array{"sound", "located", "narrowed", "misfit", "no_readings"};
}
constexpr auto names(Of<diagnosis::PlaceKind>) {
  return std::array{"joint_side", "cable", "lamp", "output", "transformer", "supply"};
}
constexpr auto names(Of<diagnosis::FaultKind>) {
  return std::array{"sound",       "open",    "open_a",       "open_b",           "resistive",   "short_span",
                    "dead_lamp",   "water",   "short_lamp",   "added_load",       "wrong_gauge", "wrong_tap",
                    "weak_output", "tripped", "bridged_taps", "transformer_dead", "no_mains",    "control_off",
                    "low_mains",   "crossed"};
}
constexpr auto names(Of<study::UnseenKind>) {
  return std::array{"wrong_hours",   "thermal_cut_out", "water_dry_now", "leak_to_soil",  "surge",
                    "heat_or_water", "over_voltage",    "flicker",       "across_outputs"};
}
constexpr auto names(Of<study::TapeSide>) { return std::array{"unknown", "left", "right"}; }

template <class Visitor>
void describe_result(Of<study::LocatedPlace>, Visitor& v) {
  using T = study::LocatedPlace;
  v.result("id", &T::id, "Of the joint, luminaire, cable, output or transformer; empty: the supply");
  v.result("cable", &T::cable, "A splice: the cable (or the luminaire of the lead) whose conductors it joins there");
  v.result("kind", &T::kind, "joint_side, cable, lamp, output, transformer or supply");
  v.result("text", &T::text, "In words");
  v.result("chance", &T::chance, "That a fault sits here, 0 to 1");
}

template <class Visitor>
void describe_result(Of<study::LocatedBracket>, Visitor& v) {
  using T = study::LocatedBracket;
  v.result("text", &T::text, "In words");
  v.result("chance", &T::chance, "That a fault sits in it");
  v.result("places", &T::places, "What it holds, likeliest first");
}

template <class Visitor>
void describe_result(Of<study::TapeOffset>, Visitor& v) {
  using T = study::TapeOffset;
  v.result("point", &T::point, "Id of the fixed point");
  v.result("name", &T::name, "Its name");
  v.result("distance_m", &T::distance_m, "Tape from it");
}

template <class Visitor>
void describe_result(Of<study::TapeOffsets>, Visitor& v) {
  using T = study::TapeOffsets;
  v.result("first", &T::first, "One tape");
  v.result("second", &T::second, "The other");
  v.result("side", &T::side, "Walking from the first point to the second");
  v.result("measured", &T::measured, "On site; else off the plan");
}

template <class Visitor>
void describe_result(Of<study::DigSpot>, Visitor& v) {
  using T = study::DigSpot;
  v.result("id", &T::id, "Of the joint, luminaire, cable or transformer");
  v.result("text", &T::text, "What to do, in words");
  v.result("chance", &T::chance, "That a fault is found there");
  v.result("effort_min", &T::effort_min, "To get there and have it open, an estimate");
  v.result("digging", &T::digging, "Whether it takes a spade");
  v.result("depth_m", &T::depth_m, "Of the cover, as recorded");
  v.result("offsets", &T::offsets, "Two tapes that find it");
  v.result("pictures", &T::pictures, "Of the open trench, by content hash");
  v.result("places", &T::places, "What it lays open, likeliest first");
  v.result("cautions", &T::cautions, "To mind before");
}

template <class Visitor>
void describe_result(Of<study::LocatedFault>, Visitor& v) {
  using T = study::LocatedFault;
  v.result("kind", &T::kind, "What is wrong");
  v.result("id", &T::id, "Of the cable, joint, luminaire, output or transformer; empty: the supply");
  v.result("value", &T::value, "As fitted");
  v.result("low", &T::low, "68 % of the chance lies between");
  v.result("high", &T::high, "and this");
  v.result("unit", &T::unit, "ohm, VA, V or times");
}

template <class Visitor>
void describe_result(Of<study::LocatedCause>, Visitor& v) {
  using T = study::LocatedCause;
  v.result("text", &T::text, "In words");
  v.result("chance", &T::chance, "0 to 1");
  v.result("faults", &T::faults, "One or two; none: as planned");
  v.result("test", &T::test, "By hand, that tells it from its neighbours");
}

template <class Visitor>
void describe_result(Of<study::ForetoldOutcome>, Visitor& v) {
  using T = study::ForetoldOutcome;
  v.result("text", &T::text, "What may be read, and where that points");
  v.result("chance", &T::chance, "0 to 1");
}

template <class Visitor>
void describe_result(Of<study::NextToRead>, Visitor& v) {
  using T = study::NextToRead;
  v.result("place", &T::place, "Id of where; empty: all lamps at one look");
  v.result("quantity", &T::quantity, "V, A, VA or ohm");
  v.result("text", &T::text, "What to read, in words");
  v.result("reads", &T::reads, "The quantity of a job's reading that says this");
  v.result("load", &T::load, "loaded, or open_circuit: runs lifted");
  v.result("clamped", &T::clamped, "A cable's amperes: one conductor, the other, or net: round both");
  v.result("at", &T::at, "The end beside which a cable's own conductors are read");
  v.result("lifted", &T::lifted, "The cable to take off its transformer meanwhile");
  v.result("information_bit", &T::information_bit, "What it is expected to say about the place");
  v.result("effort_min", &T::effort_min, "What it takes");
  v.result("outcomes", &T::outcomes, "What each outcome would mean, likeliest first");
  v.result("cautions", &T::cautions, "To mind before");
}

template <class Visitor>
void describe_result(Of<study::ComparedReading>, Visitor& v) {
  using T = study::ComparedReading;
  v.result("place", &T::place, "Id of where");
  v.result("quantity", &T::quantity, "As in the reading");
  v.result("unit", &T::unit, "V, A, VA or ohm");
  v.result("measured", &T::measured, "As read");
  v.result("predicted", &T::predicted, "By the plan");
  v.result("difference", &T::difference, "Measured less predicted");
  v.result("tolerance", &T::tolerance, "Two standard deviations of plan and meter");
  v.result("explained", &T::explained, "By the likeliest cause");
  v.result("in_tolerance", &T::in_tolerance, "Within it");
  v.result("read_again", &T::read_again, "The likeliest cause does not reach it: read it again");
}

template <class Visitor>
void describe_result(Of<study::UnusedReading>, Visitor& v) {
  using T = study::UnusedReading;
  v.result("place", &T::place, "Id that the reading names");
  v.result("quantity", &T::quantity, "As in the reading");
  v.result("why", &T::why, "Why it was put aside");
}

template <class Visitor>
void describe_result(Of<study::Unseen>, Visitor& v) {
  using T = study::Unseen;
  v.result("kind", &T::kind, "Of what no reading shows");
  v.result("text", &T::text, "In words");
  v.result("test", &T::test, "By hand, that shows it");
}

template <class Visitor>
void describe_result(Of<study::Drift>, Visitor& v) {
  using T = study::Drift;
  v.result("place", &T::place, "Id of where");
  v.result("quantity", &T::quantity, "As in the reading");
  v.result("unit", &T::unit, "Of the values");
  v.result("since", &T::since, "Date of the first visit that read it");
  v.result("was", &T::was, "Then");
  v.result("is", &T::is, "Now");
  v.result("change", &T::change, "Now less then");
  v.result("output_change", &T::output_change, "Of that the volts of the output that feeds it, where both were read");
  v.result("text", &T::text, "In words");
}

template <class Visitor>
void describe_result(Of<study::RunRoom>, Visitor& v) {
  using T = study::RunRoom;
  v.result("output", &T::output, "Id of the output");
  v.result("room_va", &T::room_va, "More load that the farthest place of its run would bear, mains low");
  v.result("limited_by", &T::limited_by, "What gives way first");
}

template <class Visitor>
void describe_result(Of<study::Located>, Visitor& v) {
  using T = study::Located;
  v.result("verdict", &T::verdict, "sound, located, narrowed, misfit or no_readings");
  v.result("headline", &T::headline, "One sentence or two");
  v.result("visit", &T::visit, "Date of the visit whose readings these are");
  v.result("causes", &T::causes, "What may be wrong, likeliest first");
  v.result("brackets", &T::brackets, "Where, as far as readings above ground can tell");
  v.result("dig_order", &T::dig_order, "Where to look, by chance over effort");
  v.result("next", &T::next, "What to read next, best first");
  v.result("half_split", &T::half_split, "What plain half-splitting would read");
  v.result("compared", &T::compared, "Each reading beside the plan");
  v.result("unused", &T::unused, "Readings that were put aside");
  v.result("checks", &T::checks, "Where nothing fits: what to look at");
  v.result("hidden", &T::hidden, "Cuts that no reading would show, with the test that would");
  v.result("unseen", &T::unseen, "Faults that no reading here could show, by what was read, seen and told");
  v.result("drift", &T::drift, "What moved since the first visit that read it");
  v.result("room", &T::room, "How much more each run would bear");
  v.result("cautions", &T::cautions, "That hold throughout");
  v.result("rests_on", &T::rests_on, "What the chances assume");
}

}  // namespace duskwire::formats
