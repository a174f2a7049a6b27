// SPDX-License-Identifier: Apache-2.0
// The shape of advice and of the answer to a quick question.
#pragma once

#include "formats/result_shape.hpp"
#include "study/advise.hpp"
#include "study/ask.hpp"

namespace duskwire::formats {

constexpr auto names(Of<study::Asked>) { return std::array{"nothing", "lamps", "length", "tap", "cable"}; }

template <class Visitor>
void describe_result(Of<study::TapVerdict>, Visitor& v) {
  using T = study::TapVerdict;
  v.result("tap_v", &T::tap_v, "The tap");
  v.result("fits", &T::fits, "Every lamp is inside its window and in regulation in every corner");
  v.result("present", &T::present, "The job's own tap");
  v.result("chosen", &T::chosen, "The advised tap");
  v.result("lowest_v", &T::lowest_v, "Lowest volts over lamps and corners");
  v.result("lowest_lamp", &T::lowest_lamp, "The lamp that sees them");
  v.result("lowest_corner", &T::lowest_corner, "The corner, in words");
  v.result("highest_v", &T::highest_v, "Highest volts over lamps and corners");
  v.result("highest_lamp", &T::highest_lamp, "The lamp that sees them");
  v.result("highest_corner", &T::highest_corner, "The corner, in words");
  v.result("low_room_v", &T::low_room_v,
           "Least volts of any lamp over the least that it should see; negative: below it");
  v.result("low_room_lamp", &T::low_room_lamp, "That lamp");
  v.result("high_room_v", &T::high_room_v, "Least volts of any lamp under the upper end of its window");
  v.result("high_room_lamp", &T::high_room_lamp, "That lamp; empty where no lamp has an upper end");
  v.result("current_a", &T::current_a, "Current, nominal");
  v.result("load_margin", &T::load_margin, "Load margin of this output's lamps, nominal; 0: one is out of regulation");
  v.result("length_margin", &T::length_margin, "The same for lengths");
  v.result("reason", &T::reason, "Why it was rejected, or why it would do");
}

template <class Visitor>
void describe_result(Of<study::TapAdvice>, Visitor& v) {
  using T = study::TapAdvice;
  v.result("output", &T::output, "Id of the output");
  v.result("transformer", &T::transformer, "Id of its transformer");
  v.result("present_tap_v", &T::present_tap_v, "The job's own tap");
  v.result("chosen_tap_v", &T::chosen_tap_v, "The advised tap; absent: none holds every lamp in its window");
  v.result("taps", &T::taps, "Every tap of the item, ascending");
  v.result("reason", &T::reason, "One sentence");
  v.result("changes", &T::changes, "The advice as changes of the job; none where the present tap is the one");
}

template <class Visitor>
void describe_result(Of<study::TransformerChoice>, Visitor& v) {
  using T = study::TransformerChoice;
  v.result("item", &T::item, "Id of the item");
  v.result("title", &T::title, "Its name");
  v.result("rating_va", &T::rating_va, "Its rating");
  v.result("output_count", &T::output_count, "Its outputs");
  v.result("price_minor", &T::price_minor, "Its price, in minor units");
  v.result("fits", &T::fits, "It would do");
  v.result("present", &T::present, "The job's own");
  v.result("chosen", &T::chosen, "The advised one");
  v.result("reason", &T::reason, "Why it was refused, or why it would do");
}

template <class Visitor>
void describe_result(Of<study::TransformerNeed>, Visitor& v) {
  using T = study::TransformerNeed;
  v.result("lamp_count", &T::lamp_count, "Lamps to feed");
  v.result("lamp_w", &T::lamp_w, "Sum of their watts");
  v.result("lamp_va", &T::lamp_va, "Sum of their VA");
  v.result("load_va", &T::load_va, "VA at the taps in the worst corner, with cable losses; 0: not known");
  v.result("output_count", &T::output_count, "Outputs in use");
  v.result("taps_v", &T::taps_v, "Taps in use");
  v.result("load_share", &T::load_share, "Highest share of the rating to be used");
  v.result("output_load_share", &T::output_load_share, "Highest share of each output's limit to be used");
  v.result("outdoors", &T::outdoors, "It hangs outdoors");
}

template <class Visitor>
void describe_result(Of<study::TransformerAdvice>, Visitor& v) {
  using T = study::TransformerAdvice;
  v.result("transformer", &T::transformer, "Id of the transformer");
  v.result("present_item", &T::present_item, "The job's own item");
  v.result("need", &T::need, "What it has to feed");
  v.result("needed_va", &T::needed_va, "Rating that carries the load with its headroom");
  v.result("chosen_item", &T::chosen_item, "The advised item; empty: none offered does");
  v.result("needed_outputs", &T::needed_outputs, "Outputs of the advised item that are needed");
  v.result("choices", &T::choices, "Every item looked at, by rating, then price");
  v.result("reason", &T::reason, "One or two sentences");
  v.result("changes", &T::changes, "The advice as changes of the job");
}

template <class Visitor>
void describe_result(Of<study::ProtectionAdvice>, Visitor& v) {
  using T = study::ProtectionAdvice;
  v.result("output", &T::output, "Id of the output");
  v.result("limit_a", &T::limit_a, "What its protection allows now; 0: none");
  v.result("worst_current_a", &T::worst_current_a, "The current that it has to carry");
  v.result("far_short_a", &T::far_short_a, "The current that it has to see: the least bolted short");
  v.result("far_short_at", &T::far_short_at, "Where that short is: joint or luminaire");
  v.result("trips", &T::trips, "It sees that short");
  v.result("suggested_limit_a", &T::suggested_limit_a, "A smaller device that carries the load and sees the short");
  v.result("reason", &T::reason, "One sentence");
  v.result("changes", &T::changes, "The advice as changes of the job");
}

template <class Visitor>
void describe_result(Of<study::Advice>, Visitor& v) {
  using T = study::Advice;
  v.result("taps", &T::taps, "Each output with lamps");
  v.result("transformers", &T::transformers, "Each transformer");
  v.result("protection", &T::protection, "Each output with cables");
}

template <class Visitor>
void describe_result(Of<study::Tried>, Visitor& v) {
  using T = study::Tried;
  v.result("value", &T::value, "Volts of the tap, or mm2 of the cable");
  v.result("name", &T::name, "Name of the cable");
  v.result("last_v", &T::last_v, "Volts at the farthest lamp, nominal");
  v.result("worst_low_v", &T::worst_low_v, "Lowest volts over lamps and mains");
  v.result("worst_high_v", &T::worst_high_v, "Highest volts over lamps and mains");
  v.result("holds", &T::holds, "Every lamp is inside the window and in regulation");
}

template <class Visitor>
void describe_result(Of<study::Answer>, Visitor& v) {
  using T = study::Answer;
  v.result("asked", &T::asked, "The part that was left out");
  v.result("found", &T::found, "A value of that part holds every lamp; if not, the rest is the best try");
  v.result("unbounded", &T::unbounded, "The search ended at its cap: more would still hold");
  v.result("lamps", &T::lamps, "Number of lamps");
  v.result("length_m", &T::length_m, "Length along the cable");
  v.result("tap_v", &T::tap_v, "Tap");
  v.result("cable", &T::cable, "Cable");
  v.result("holds", &T::holds, "Every lamp is inside the window and in regulation, over the mains tolerance");
  v.result("last_v", &T::last_v, "Volts at the farthest lamp, nominal");
  v.result("first_v", &T::first_v, "Volts at the nearest lamp, nominal");
  v.result("worst_low_v", &T::worst_low_v, "Lowest volts over lamps and mains");
  v.result("worst_high_v", &T::worst_high_v, "Highest volts over lamps and mains");
  v.result("last_state", &T::last_state, "State of the farthest lamp");
  v.result("last_light", &T::last_light, "Its share of full light");
  v.result("current_a", &T::current_a, "Current at the tap");
  v.result("lamp_va", &T::lamp_va, "Sum of the lamps' VA");
  v.result("load_va", &T::load_va, "VA at the terminals");
  v.result("load_margin", &T::load_margin,
           "Factor by which all loads may grow; 0: a lamp is out of regulation already");
  v.result("load_beyond_cap", &T::load_beyond_cap, "The search ended at its cap: the true factor is higher");
  v.result("length_margin", &T::length_margin, "The same for the length");
  v.result("length_beyond_cap", &T::length_beyond_cap, "The search ended at its cap: the true factor is higher");
  v.result("short_a", &T::short_a, "Current of a bolted short at the far end");
  v.result("tried", &T::tried, "Taps or cables that were tried, ascending");
  v.result("sentence", &T::sentence, "The answer in words");
}

}  // namespace duskwire::formats
