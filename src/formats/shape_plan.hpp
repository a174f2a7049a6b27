// SPDX-License-Identifier: Apache-2.0
// The shape of the plan. Site frame: x east or as north_deg says, y a quarter turn left of it, z up, metres.
#pragma once

#include "formats/enum_names.hpp"
#include "formats/shape.hpp"
#include "job/plan.hpp"

namespace duskwire::formats {

template <class Visitor>
void describe(Of<job::Area>, Visitor& v) {
  using T = job::Area;
  v.field("id", &T::id, Id{Kind::area}, required, "Id of the area");
  v.field("name", &T::name, Text{200}, optional, "Name for people");
  v.field("kind", &T::kind, OneOf{}, required, "What the ground is");
  v.field("outline", &T::outline, Places{3, false}, required, "Corners in order, the first not repeated");
  v.field("height_m", &T::height_m, Number{0, 200, "m"}, optional,
          "Height of a building, wall or deck over grade; of steps from their foot to the landing");
  v.field("riser_count", &T::riser_count, Number{1, 200, "risers"}, optional,
          "Steps: how many risers; where absent as the height says");
  v.field("ascent_deg", &T::ascent_deg, Number{-360, 360, "deg"}, optional,
          "Steps: the way up, clockwise from north; where absent towards the deck or building that adjoins");
}

template <class Visitor>
void describe(Of<job::Underlay>, Visitor& v) {
  using T = job::Underlay;
  v.field("image", &T::image, Text{500}, required, "Content hash or file name of the picture");
  v.field("m_per_px", &T::m_per_px, Number{0, 1000, "m", true}, required, "Metres per picture element");
  v.field("origin", &T::origin, Place{}, optional, "Where the picture's top left corner lies");
  v.field("rotation_deg", &T::rotation_deg, Number{-360, 360, "deg"}, optional,
          "Turn of the picture about that corner, counter-clockwise");
  v.field("opacity", &T::opacity, Number{0, 1, ""}, optional, "0 not seen, 1 as it is");
}

template <class Visitor>
void describe(Of<job::Sleeve>, Visitor& v) {
  using T = job::Sleeve;
  v.field("id", &T::id, Id{Kind::sleeve}, required, "Id of the sleeve");
  v.field("path", &T::path, Places{2, true}, optional, "Its route on the plan");
  v.field("diameter_mm", &T::diameter_mm, Number{0, 1000, "mm"}, optional, "Inner diameter; 0: not known");
  v.field("depth_m", &T::depth_m, Number{0, 10, "m"}, optional, "Cover over the sleeve");
  v.field("laid", &T::laid, Flag{}, optional, "In the ground already; where absent it is bought and dug for");
}

template <class Visitor>
void describe(Of<job::Receptacle>, Visitor& v) {
  using T = job::Receptacle;
  v.field("id", &T::id, Id{Kind::receptacle}, required, "Id of the receptacle");
  v.field("position", &T::position, Place{}, required, "Where it is");
  v.field("gfci", &T::gfci, Flag{}, optional, "Residual-current protected");
  v.field("in_use_cover", &T::in_use_cover, Flag{}, optional, "Has a cover that closes over a plug");
  v.field("circuit_a", &T::circuit_a, Number{0, 200, "A", true}, optional, "Rating of the circuit's protection");
}

template <class Visitor>
void describe(Of<job::ViewPoint>, Visitor& v) {
  using T = job::ViewPoint;
  v.field("id", &T::id, Id{Kind::view_point}, required, "Id of the view point");
  v.field("name", &T::name, Text{200}, optional, "Name for people");
  v.field("kind", &T::kind, OneOf{}, optional, "Who looks from here");
  v.field("position", &T::position, Place{}, required, "The eye");
}

template <class Visitor>
void describe(Of<job::Tree>, Visitor& v) {
  using T = job::Tree;
  v.field("id", &T::id, Id{Kind::tree}, required, "Id of the tree");
  v.field("name", &T::name, Text{200}, optional, "Name for people");
  v.field("position", &T::position, Place{}, required, "The middle of its trunk");
  v.field("height_m", &T::height_m, Number{0, 150, "m"}, optional, "Height over grade");
  v.field("crown_width_m", &T::crown_width_m, Number{0, 100, "m"}, optional, "Width of the crown");
  v.field("crown_base_m", &T::crown_base_m, Number{0, 150, "m"}, optional, "Where the crown begins, over grade");
  v.field("crown_transmittance", &T::crown_transmittance, Number{0, 1, ""}, optional,
          "Share of light that gets through the crown");
}

template <class Visitor>
void describe(Of<job::FixedPoint>, Visitor& v) {
  using T = job::FixedPoint;
  v.field("id", &T::id, Id{Kind::fixed_point}, required, "Id of the fixed point");
  v.field("name", &T::name, Text{200}, optional, "Name for people");
  v.field("position", &T::position, Place{}, required, "A point that stays for decades: tape offsets start here");
}

template <class Visitor>
void describe(Of<job::Plan>, Visitor& v) {
  using T = job::Plan;
  v.field("underlay", &T::underlay, Part{}, optional, "A picture below the plan");
  v.field("north_deg", &T::north_deg, Number{-360, 360, "deg"}, optional,
          "Direction of north in the site frame, counter-clockwise from +x");
  v.field("areas", &T::areas, List{5000}, optional,
          "What the ground is; where areas overlap the smaller counts, a root zone or forbidden zone "
          "only where nothing else lies");
  v.field("sleeves", &T::sleeves, List{5000}, optional, "Empty pipes in the ground");
  v.field("receptacles", &T::receptacles, List{1000}, optional, "Mains receptacles");
  v.field("property_line", &T::property_line, Places{3, true}, optional, "Corners in order, the first not repeated");
  v.field("view_points", &T::view_points, List{1000}, optional, "Where people look from");
  v.field("trees", &T::trees, List{5000}, optional, "Trees");
  v.field("fixed_points", &T::fixed_points, List{1000}, optional, "Points to measure from");
}

}  // namespace duskwire::formats
