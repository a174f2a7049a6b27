// SPDX-License-Identifier: Apache-2.0
// The shape of a view: a photograph, its camera, what is outlined and measured on it. Places on the picture are [x, y]
// in picture elements from the top left corner of the upright picture. Ids of what hangs on a view are its own.
#pragma once

#include "formats/enum_names.hpp"
#include "formats/shape.hpp"
#include "job/view.hpp"

namespace duskwire::formats {

inline constexpr Pixels outline_px{3, 2000, false};
inline constexpr Number reflectance{0, 1, ""};

template <class Visitor>
void describe(Of<job::ViewReference>, Visitor& v) {
  using T = job::ViewReference;
  v.field("pixel_px", &T::pixel_px, Pixel{}, required, "Place on the picture from its top left corner");
  v.field("site", &T::site, Place{}, required, "The same point in the garden");
}

template <class Visitor>
void describe(Of<job::KnownWall>, Visitor& v) {
  using T = job::KnownWall;
  v.field("corners_px", &T::corners_px, Pixels{4, 4, false}, required,
          "Its corners: bottom left, bottom right, top right, top left as seen on the picture");
  v.field("left", &T::left, Place{}, required, "Its lower left corner in the garden, as seen from the camera");
  v.field("right", &T::right, Place{}, required, "Its lower right corner in the garden");
  v.field(
      "height_m", &T::height_m, Number{0, 200, "m"}, required,
      "Its height over these two corners; 0: not known, to be fitted (a second wall or the focal length must help)");
}

template <class Visitor>
void describe(Of<job::Calibration>, Visitor& v) {
  using T = job::Calibration;
  v.field("method", &T::method, OneOf{}, required, "What fixes the camera");
  v.field("focal_px", &T::focal_px, Number{0, 1e6, "px", true}, optional,
          "Focal length where it is known beforehand; where absent it is found");
  v.field("principal_point_px", &T::principal_point_px, Pixel{}, optional,
          "Where the optical axis meets the picture; where absent its middle");
  v.field("wall", &T::wall, Part{}, optional, "An upright rectangle of known size");
  v.field("adjoining_px", &T::adjoining_px, Pixels{2, 2, true}, optional,
          "Lower and upper far corner of a second wall, at a right angle to the known one and as high");
  v.field("references", &T::references, List{1000}, optional, "Points known both on the picture and in the garden");
  v.field("size_error_pct", &T::size_error_pct, Number{0, 50, "%"}, optional,
          "How far off the known sizes may be, one standard deviation");
  v.field("click_error_px", &T::click_error_px, Number{0, 1000, "px", true}, optional,
          "How far off a marked place may be, one standard deviation");
}

template <class Visitor>
void describe(Of<job::PictureSurface>, Visitor& v) {
  using T = job::PictureSurface;
  v.field("id", &T::id, other_id, required, "Id of the surface within the view");
  v.field("name", &T::name, Text{200}, optional, "Name for people");
  v.field("kind", &T::kind, OneOf{}, optional, "What it is");
  v.field("outline_px", &T::outline_px, outline_px, required, "Its corners on the picture in order");
  v.field("on_plane", &T::on_plane, Place{}, required, "Some point of its plane in the garden");
  v.field("normal", &T::normal, Way{}, required, "Which way it faces, to its lit side");
  v.field("reflectance", &T::reflectance, reflectance, optional,
          "Share of light that it throws back, mean; where absent a usual one of its kind");
}

template <class Visitor>
void describe(Of<job::PictureTree>, Visitor& v) {
  using T = job::PictureTree;
  v.field("id", &T::id, other_id, required, "Id within the view");
  v.field("tree", &T::tree, other_id, optional, "Tree of the plan");
  v.field("outline_px", &T::outline_px, outline_px, required, "Its outline on the picture");
  v.field("foot", &T::foot, Place{}, required, "Where it stands in the garden");
  v.field("reflectance", &T::reflectance, reflectance, optional,
          "Share of light that its leaves throw back; where absent a usual one");
}

template <class Visitor>
void describe(Of<job::PictureMask>, Visitor& v) {
  using T = job::PictureMask;
  v.field("id", &T::id, other_id, required, "Id within the view");
  v.field("kind", &T::kind, OneOf{}, optional, "What it is");
  v.field("outline_px", &T::outline_px, outline_px, required, "Its outline on the picture");
  v.field("luminance_cd_m2", &T::luminance_cd_m2, Number{0, 1e6, "cd/m2"}, optional, "How bright it is by itself");
  v.field("colour_temperature_k", &T::colour_temperature_k, Number{1000, 20'000, "K"}, optional,
          "Colour of its own light");
}

template <class Visitor>
void describe(Of<job::PictureMeasure>, Visitor& v) {
  using T = job::PictureMeasure;
  v.field("id", &T::id, other_id, required, "Id within the view");
  v.field("name", &T::name, Text{200}, optional, "Name for people");
  v.field("surface", &T::surface, other_id, optional,
          "Surface of the view that both ends lie on; none: upright at `from_px`, which is on the ground");
  v.field("from_px", &T::from_px, Pixel{}, required, "One end on the picture");
  v.field("to_px", &T::to_px, Pixel{}, required, "The other end on the picture");
}

template <class Visitor>
void describe(Of<job::NightLook>, Visitor& v) {
  using T = job::NightLook;
  v.field("camera_share", &T::camera_share, Number{0, 1, ""}, optional,
          "0 as the adapted eye sees it, 1 as a camera would expose it");
  v.field("exposure_stops", &T::exposure_stops, Number{-20, 20, "stops"}, optional, "On top; one stop doubles");
  v.field("ambient_lx", &T::ambient_lx, Number{0, 1000, "lx"}, optional, "Moon and sky on level ground");
  v.field("white_k", &T::white_k, Number{1000, 20'000, "K"}, optional, "Light of this colour looks white");
}

template <class Visitor>
void describe(Of<job::View>, Visitor& v) {
  using T = job::View;
  v.field("id", &T::id, Id{Kind::view}, required, "Id of the view");
  v.field("name", &T::name, Text{200}, optional, "Name for people");
  v.field("image", &T::image, Text{500}, required, "Content hash or file name of the photograph, upright");
  v.field("width_px", &T::width_px, Number{0, 100'000, "px"}, optional, "Width of the photograph; 0: not known");
  v.field("height_px", &T::height_px, Number{0, 100'000, "px"}, optional, "Height of the photograph; 0: not known");
  v.field("taken", &T::taken, Text{40, Form::date_or_time}, optional, "When it was taken");
  v.field("view_point", &T::view_point, other_id, optional, "View point of the plan that it was taken from");
  v.field("position", &T::position, Place{}, optional, "The camera, where it was measured");
  v.field("calibration", &T::calibration, Part{}, optional, "How picture and garden belong together");
  v.field("surfaces", &T::surfaces, List{500}, optional, "Plane pieces; a later one lies in front of an earlier one");
  v.field("trees", &T::trees, List{500}, optional, "Trees and shrubs as upright cut-outs");
  v.field("masks", &T::masks, List{500}, optional, "What no lamp lights: the sky, windows");
  v.field("measures", &T::measures, List{500}, optional, "Lengths that are measured on the photograph");
  v.field("night", &T::night, Part{}, optional, "How the night is shown");
  v.field("notes", &T::notes, Text{50'000}, optional, "Anything else");
}

}  // namespace duskwire::formats
