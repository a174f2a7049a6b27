// SPDX-License-Identifier: Apache-2.0
// The shape of a choice of lamps.
#pragma once

#include "formats/result_shape.hpp"
#include "formats/shape_level_set.hpp"
#include "study/choose.hpp"

namespace duskwire::formats {

template <class Visitor>
void describe_result(Of<study::ChosenLamp>, Visitor& v) {
  using T = study::ChosenLamp;
  v.result("item", &T::item, "Id of the catalogue item");
  v.result("position", &T::position, "Where its light centre goes: [x, y, z] in metres");
  v.result("azimuth_deg", &T::azimuth_deg, "Aim, clockwise from north");
  v.result("tilt_deg", &T::tilt_deg, "Aim: 0 level, 90 up");
}

template <class Visitor>
void describe_result(Of<study::ChoiceOption>, Visitor& v) {
  using T = study::ChoiceOption;
  v.result("item", &T::item, "Id of the catalogue item");
  v.result("title", &T::title, "Its name");
  v.result("kind", &T::kind, "What it does");
  v.result("count", &T::count, "How many");
  v.result("beam_deg", &T::beam_deg, "Its beam");
  v.result("spot_m", &T::spot_m, "Across its spot on the target, or its pool");
  v.result("flux_lm", &T::flux_lm, "Lumens of all");
  v.result("average_lx", &T::average_lx, "Light of these lamps alone on the target, mean");
  v.result("minimum_lx", &T::minimum_lx, "The same, least");
  v.result("price_minor", &T::price_minor, "Price of the lamps");
  v.result("fits", &T::fits, "Nothing speaks against it");
  v.result("reason", &T::reason, "One sentence");
  v.result("warnings", &T::warnings, "What speaks against it");
  v.result("lamps", &T::lamps, "Each lamp in its place");
}

template <class Visitor>
void describe_result(Of<study::ChoiceNeed>, Visitor& v) {
  using T = study::ChoiceNeed;
  v.result("setback_m", &T::setback_m, "Lamp to trunk or wall");
  v.result("distance_m", &T::distance_m, "Lamp to the middle of the crown");
  v.result("beam_deg", &T::beam_deg, "Beam that spans the target");
  v.result("tilt_deg", &T::tilt_deg, "Aim above the level");
  v.result("spacing_m", &T::spacing_m, "From lamp to lamp");
  v.result("count", &T::count, "How many lamps");
  v.result("flux_lm", &T::flux_lm, "Lumens of all lamps together");
  v.result("average_lx", &T::average_lx, "What the set of levels asks on average");
}

template <class Visitor>
void describe_result(Of<study::Choice>, Visitor& v) {
  using T = study::Choice;
  v.result("place", &T::place, "What is lit");
  v.result("target", &T::target, "Its id");
  v.result("sentence", &T::sentence, "The advice");
  v.result("need", &T::need, "What the target asks for");
  v.result("options", &T::options, "Lamps of the catalogue, best first");
  v.result("remarks", &T::remarks, "Of what is there already, and what no lamp mends");
}

}  // namespace duskwire::formats
