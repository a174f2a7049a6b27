// SPDX-License-Identifier: Apache-2.0
// The shape of a request for a first look.
#pragma once

#include "formats/shape.hpp"
#include "study/first_look.hpp"

namespace duskwire::formats {

constexpr const char* type_name(Of<study::SeenThing>) { return "seen thing"; }
constexpr const char* type_name(Of<study::FirstLookRequest>) { return "first look request"; }

template <class Visitor>
void describe(Of<study::SeenThing>, Visitor& v) {
  using T = study::SeenThing;
  v.field("name", &T::name, Text{200}, required, "What it is");
  v.field("size_px", &T::size_px, Number{0, farthest_px, "px", true}, required, "Its length on the photograph");
}

template <class Visitor>
void describe(Of<study::FirstLookRequest>, Visitor& v) {
  using T = study::FirstLookRequest;
  v.field("known", &T::known, Part{}, required, "What has a known size");
  v.field("known_m", &T::known_m, Number{0, 1000, "m", true}, required, "That size");
  v.field("things", &T::things, List{100}, optional, "What else was measured, about as far from the camera");
  v.field("note", &T::note, Text{20'000}, optional, "The client's words");
  v.field("depth_error_share", &T::depth_error_share, Number{0, 1}, optional, "How far off \"about as far\" may be");
  v.field("click_error_px", &T::click_error_px, Number{0, 100, "px"}, optional, "How far off a mark may be");
  v.field("outlet_known", &T::outlet_known, Flag{}, optional, "The outlet is known");
  v.field("water_known", &T::water_known, Flag{}, optional, "Whether there is a pool or a pond is known");
  v.field("night_photo_seen", &T::night_photo_seen, Flag{}, optional, "A photograph after dark is there");
}

}  // namespace duskwire::formats
