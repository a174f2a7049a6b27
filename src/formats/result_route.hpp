// SPDX-License-Identifier: Apache-2.0
// The shape of a planned wiring and of the progress of the search for it.
#pragma once

#include "formats/result_shape.hpp"
#include "study/route.hpp"

namespace duskwire::formats {

constexpr auto names(Of<study::Topology>) { return std::array{"single", "chain", "tee", "hub", "mixed"}; }

template <class Visitor>
void describe_result(Of<estimate::InstalledCost>, Visitor& v) {
  using T = estimate::InstalledCost;
  v.result("cost_minor", &T::cost_minor, "Material and labour");
  v.result("material_minor", &T::material_minor, "The whole list of materials, lamps too");
  v.result("labour_min", &T::labour_min, "Minutes of the list and of the trench");
  v.result("trench_min", &T::trench_min, "Minutes of the trench alone");
  v.result("trench_m", &T::trench_m, "Dug, each stretch once");
  v.result("cable_m", &T::cable_m, "Cable as it is cut, slack included");
  v.result("joints", &T::joints, "Joints where wires meet");
  v.result("cable_types", &T::cable_types, "Different cables");
}

template <class Visitor>
void describe_result(Of<study::RouteFigures>, Visitor& v) {
  using T = study::RouteFigures;
  v.result("cost", &T::cost, "What it costs to put in");
  v.result("lowest_v", &T::lowest_v, "Lowest volts of any lamp that is fed, over the corners");
  v.result("lowest_lamp", &T::lowest_lamp, "That lamp; empty: none is fed");
  v.result("least_room_v", &T::least_room_v, "Least distance of a lamp to an edge of its window; negative: outside");
  v.result("least_room_lamp", &T::least_room_lamp, "That lamp");
  v.result("load_margin", &T::load_margin,
           "Factor by which all loads may grow; 0: a lamp is out of regulation already");
  v.result("load_va", &T::load_va, "VA at the taps, highest over the corners");
  v.result("rating_va", &T::rating_va, "Ratings of all transformers");
  v.result("transformers", &T::transformers, "Transformers");
  v.result("outputs", &T::outputs, "Outputs that feed a lamp");
  v.result("errors", &T::errors, "Findings of severity error");
  v.result("wired", &T::wired, "Every lamp is fed");
  v.result("sound", &T::sound, "Every lamp is fed and no finding is an error");
}

template <class Visitor>
void describe_result(Of<study::RouteRun>, Visitor& v) {
  using T = study::RouteRun;
  v.result("cable", &T::cable, "The first cable, at the output");
  v.result("output", &T::output, "Id of the output");
  v.result("tap_v", &T::tap_v, "Its tap");
  v.result("topology", &T::topology, "How the lamps hang on it");
  v.result("lamps", &T::lamps, "Ids of its lamps");
  v.result("load_va", &T::load_va, "VA of its lamps");
  v.result("cable_m", &T::cable_m, "Cable as it is cut");
  v.result("cable_items", &T::cable_items, "Its cables, thickest first");
  v.result("sentence", &T::sentence, "Why it is so, and what the next cheaper choice would break");
}

template <class Visitor>
void describe_result(Of<study::RouteObstacle>, Visitor& v) {
  using T = study::RouteObstacle;
  v.result("subject", &T::subject, "Id of the object in the job, or empty");
  v.result("message", &T::message, "What stands in the way");
  v.result("cure", &T::cure, "What to relax or to add");
}

// After `job`, which is a document.
template <class Visitor>
void describe_result(Of<study::RouteAnswer>, Visitor& v) {
  using T = study::RouteAnswer;
  v.result("today", &T::today, "Figures of the job as it was handed in");
  v.result("planned", &T::planned, "Figures of the planned job");
  v.result("sleeves_to_lay", &T::sleeves_to_lay, "Sleeves of the planned job that are not in the ground yet");
  v.result("bound_minor", &T::bound_minor, "No wiring on the same ways costs less");
  v.result("runs", &T::runs, "What hangs on each cable out of an output");
  v.result("obstacles", &T::obstacles, "What stands in the way of a sound wiring");
  v.result("steps", &T::steps, "Steps that the search took");
}

// Before `more`.
template <class Visitor>
void describe_result(Of<study::RouteProgress>, Visitor& v) {
  using T = study::RouteProgress;
  v.result("steps", &T::steps, "Steps so far");
  v.result("cost_minor", &T::cost_minor, "Best so far, by the search's own account; 0: none yet");
  v.result("first_minor", &T::first_minor, "The first one that was found");
  v.result("trench_m", &T::trench_m, "Trench of the best");
  v.result("cable_m", &T::cable_m, "Cable of the best");
  v.result("joints", &T::joints, "Joints of the best");
  v.result("lamps_placed", &T::lamps_placed, "Lamps that the best feeds");
  v.result("lamps", &T::lamps, "Lamps of the job");
}

}  // namespace duskwire::formats
