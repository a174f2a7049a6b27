// SPDX-License-Identifier: Apache-2.0
// The shape of what is asked of a night picture, and of what it answers beside the picture.
#pragma once

#include "formats/result_shape.hpp"
#include "formats/shape.hpp"
#include "study/night_session.hpp"

namespace duskwire::formats {

constexpr const char* type_name(Of<study::LampTrial>) { return "lamp trial"; }
constexpr const char* type_name(Of<study::NightWish>) { return "night request"; }

// Bounds of a look, the same as those of a view's own.
inline constexpr Number camera_share_bounds{0, 1, ""};
inline constexpr Number exposure_bounds{-10, 10, "stops"};
inline constexpr Number ambient_bounds{0, 1000, "lx"};
inline constexpr Number white_bounds{1500, 10000, "K"};

template <class Visitor>
void describe(Of<study::LampTrial>, Visitor& v) {
  using T = study::LampTrial;
  v.field("id", &T::id, Text{longest_id, Form::name}, required, "Id of the luminaire");
  v.field("share", &T::share, Number{0, 1, ""}, optional, "Of its light; 0 is off");
  v.field("colour_temperature_k", &T::colour_temperature_k, Number{1500, 10000, "K"}, optional, "Another colour");
}

template <class Visitor>
void describe(Of<study::NightWish>, Visitor& v) {
  using T = study::NightWish;
  v.field("view", &T::view, Text{longest_id, Form::name}, required, "Id of the view");
  v.field("camera_share", &T::camera_share, camera_share_bounds, optional, "0: as the adapted eye, 1: as a camera");
  v.field("exposure_stops", &T::exposure_stops, exposure_bounds, optional, "Brighter or darker");
  v.field("ambient_lx", &T::ambient_lx, ambient_bounds, optional, "Moon and sky on level ground");
  v.field("white_k", &T::white_k, white_bounds, optional, "Light of this colour looks white");
  v.field("lamps", &T::lamps, List{20'000}, optional, "What is tried on lamps");
}

template <class Visitor>
void describe_result(Of<study::NightFacts::Lamp>, Visitor& v) {
  using T = study::NightFacts::Lamp;
  v.result("id", &T::id, "Id of the luminaire");
  v.result("name", &T::name, "Its name");
  v.result("share", &T::share, "Of its full light: dimming, volts and trial");
  v.result("colour_temperature_k", &T::colour_temperature_k, "Colour of its light");
  v.result("is_in_picture", &T::is_in_picture, "It lights something that the picture shows");
}

template <class Visitor>
void describe_result(Of<study::NightFacts>, Visitor& v) {
  using T = study::NightFacts;
  v.result("width_px", &T::width_px, "Size of the picture");
  v.result("height_px", &T::height_px, "Size of the picture");
  v.result("adaptation_cd_m2", &T::adaptation_cd_m2, "The luminance that exposure is found from");
  v.result("lit_share", &T::lit_share, "How much of the picture takes light from lamps");
  v.result("lamps", &T::lamps, "Each lamp");
  v.result("assumptions", &T::assumptions, "What was assumed, a sentence each");
  v.result("remarks", &T::remarks, "What a person should look at, a sentence each");
  v.result("recomputed", &T::recomputed, "Ids of the lamps whose light was calculated anew");
}

template <class Visitor>
void describe_result(Of<study::NightProbe::Part>, Visitor& v) {
  using T = study::NightProbe::Part;
  v.result("id", &T::id, "Id of the luminaire");
  v.result("lux", &T::lux, "What it gives there");
}

}  // namespace duskwire::formats
