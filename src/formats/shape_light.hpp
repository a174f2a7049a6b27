// SPDX-License-Identifier: Apache-2.0
// The shape of how a garden's light is judged.
#pragma once

#include "formats/shape.hpp"
#include "job/light_plan.hpp"

namespace duskwire::formats {

// Ids here are not looked up: an acceptance outlives the lamp that it was for, and does no harm then.
template <class Visitor>
void describe(Of<job::AcceptedSight>, Visitor& v) {
  using T = job::AcceptedSight;
  v.field("luminaire", &T::luminaire, Text{longest_id, Form::name}, required, "The lamp that may be seen");
  v.field("view_point", &T::view_point, Text{longest_id, Form::name}, required, "The view point that it is seen from");
  v.field("note", &T::note, Text{2000}, optional, "Who agreed, and when");
}

template <class Visitor>
void describe(Of<job::LightPlan>, Visitor& v) {
  using T = job::LightPlan;
  v.field("targets", &T::targets, Text{longest_id, Form::name}, optional,
          "Id of the set of levels in force; where absent those for gardens");
  v.field("property_line_limit_lx", &T::property_line_limit_lx, Number{0, 10'000, "lx"}, optional,
          "Most light that may leave the lot, upright at its line; where absent as the set says");
  v.field("window_limit_lx", &T::window_limit_lx, Number{0, 10'000, "lx"}, optional,
          "Most light on a neighbour's window; where absent as the set says");
  v.field("accepted", &T::accepted, List{10'000}, optional, "Lamps that may be seen from a view point");
}

}  // namespace duskwire::formats
