// SPDX-License-Identifier: Apache-2.0
// The shape of the photometry of one lamp.
#pragma once

#include "formats/result_shape.hpp"
#include "study/photometry.hpp"

namespace duskwire::formats {

constexpr auto names(Of<light::PhotometricType>) { return std::array{"C", "B", "A"}; }
constexpr auto names(Of<light::IntensitySymmetry>) {
  return std::array{"none", "axial", "mirror_0_180", "mirror_90_270", "quadrants", "left_right", "up_down", "quarters"};
}
constexpr auto names(Of<light::OpeningShape>) {
  return std::array{"point",
                    "rectangle",
                    "round",
                    "ellipse",
                    "box",
                    "sphere",
                    "ellipsoid",
                    "upright_cylinder",
                    "upright_elliptic_cylinder",
                    "lying_cylinder_along",
                    "lying_cylinder_across",
                    "upright_disc",
                    "upright_ellipse",
                    "unknown"};
}
constexpr auto names(Of<light::LcsZone>) {
  return std::array{"FL", "FM", "FH", "FVH", "BL", "BM", "BH", "BVH", "UL", "UH"};
}
constexpr auto names(Of<light::BugLetter>) { return std::array{"backlight", "uplight", "glare"}; }
constexpr auto names(Of<light::SourceStatus>) { return std::array{"seen", "from memory"}; }

template <class Visitor>
void describe_result(Of<light::Keyword>, Visitor& v) {
  using T = light::Keyword;
  v.result("name", &T::name, "Keyword of LM-63, without brackets; EULUMDAT's names under the same words");
  v.result("text", &T::text, "Its text");
}

template <class Visitor>
void describe_result(Of<light::Opening>, Visitor& v) {
  using T = light::Opening;
  v.result("shape", &T::shape, "Shape of the luminous opening");
  v.result("width_m", &T::width_m, "Its width");
  v.result("length_m", &T::length_m, "Its length");
  v.result("height_m", &T::height_m, "Its height");
}

template <class Visitor>
void describe_result(Of<light::BeamAngles>, Visitor& v) {
  using T = light::BeamAngles;
  v.result("c_deg", &T::c_deg, "The plane: this C and C + 180");
  v.result("beam_deg", &T::beam_deg,
           "Full angle to half of the plane's highest intensity; left out: it never falls so far");
  v.result("field_deg", &T::field_deg, "The same to a tenth");
}

template <class Visitor>
void describe_result(Of<light::ZonalRow>, Visitor& v) {
  using T = light::ZonalRow;
  v.result("gamma_from_deg", &T::gamma_from_deg, "Start of the zone, from straight down");
  v.result("gamma_to_deg", &T::gamma_to_deg, "Its end");
  v.result("flux_lm", &T::flux_lm, "Lumens in it");
  v.result("share_pct", &T::share_pct, "Share of the whole");
  v.result("so_far_pct", &T::so_far_pct, "Share from straight down to its end");
}

template <class Visitor>
void describe_result(Of<light::LcsFlux>, Visitor& v) {
  using T = light::LcsFlux;
  v.result("zone", &T::zone, "Zone of IES TM-15: forward, back, up; low, mid, high, very high");
  v.result("flux_lm", &T::flux_lm, "Lumens in it");
  v.result("share_pct", &T::share_pct, "Share of the whole");
}

template <class Visitor>
void describe_result(Of<light::BugLimit>, Visitor& v) {
  using T = light::BugLimit;
  v.result("letter", &T::letter, "The rating that it belongs to");
  v.result("zone", &T::zone, "The zone");
  v.result("flux_lm", &T::flux_lm, "Lumens in it");
  v.result("limits_lm", &T::limits_lm, "Upper limits of ratings 0 to 4");
  v.result("rating", &T::rating, "The rating by this zone alone; 5: above the last limit");
  v.result("status", &T::status, "How sure the limits are");
}

template <class Visitor>
void describe_result(Of<light::BugRating>, Visitor& v) {
  using T = light::BugRating;
  v.result("backlight", &T::backlight, "B, 0 to 5: the worst of its zones");
  v.result("uplight", &T::uplight, "U, 0 to 5");
  v.result("glare", &T::glare, "G, 0 to 5");
  v.result("even_all_round", &T::even_all_round, "Front and back alike: glare by the limits of type V, else I to IV");
  v.result("zones", &T::zones, "Lumens by zone");
  v.result("limits", &T::limits, "Each zone against its limits");
}

template <class Visitor>
void describe_result(Of<light::PolarPoint>, Visitor& v) {
  using T = light::PolarPoint;
  v.result("gamma_deg", &T::gamma_deg, "From straight down");
  v.result("intensity_cd", &T::intensity_cd, "Intensity that way");
}

template <class Visitor>
void describe_result(Of<light::PolarCurve>, Visitor& v) {
  using T = light::PolarCurve;
  v.result("c_deg", &T::c_deg, "The half plane");
  v.result("points", &T::points, "Every 2.5 degrees from straight down to straight up");
}

template <class Visitor>
void describe_result(Of<light::Photometry>, Visitor& v) {
  using T = light::Photometry;
  v.result("flux_lm", &T::flux_lm, "Sum over the sphere");
  v.result("peak_cd", &T::peak_cd, "Highest intensity");
  v.result("peak_c_deg", &T::peak_c_deg, "Its C, in terms of type C");
  v.result("peak_gamma_deg", &T::peak_gamma_deg, "Its gamma");
  v.result("down_pct", &T::down_pct, "Share that goes down");
  v.result("up_pct", &T::up_pct, "Share that goes up");
  v.result("beams", &T::beams, "Beam and field angle in the planes of C 0 and C 90");
  v.result("zones", &T::zones, "Lumens by ten degrees");
  v.result("bug", &T::bug, "Ratings for backlight, uplight and glare, as the lamp hangs in its file");
  v.result("curves", &T::curves, "Intensities for a polar plot: C 0, 90, 180, 270");
}

template <class Visitor>
void describe_result(Of<study::PhotometryReport>, Visitor& v) {
  using T = study::PhotometryReport;
  v.result("source", &T::source, "Kind of file; beam: made from beam angle and lumens");
  v.result("shape", &T::shape, "Shape of such a beam; left out: a file");
  v.result("labels", &T::labels, "What the file says of itself");
  v.result("origin", &T::origin, "How a file of LM-63-2019 came about");
  v.result("type", &T::type, "Photometric type of the file");
  v.result("symmetry", &T::symmetry, "How the planes of the file stand for those not listed");
  v.result("vertical_count", &T::vertical_count, "Vertical angles that the file lists");
  v.result("horizontal_count", &T::horizontal_count, "Planes that it lists");
  v.result("power_w", &T::power_w, "Watts that it states");
  v.result("lamp_flux_lm", &T::lamp_flux_lm, "Lumens of the bare lamps; left out: absolute photometry");
  v.result("output_ratio_pct", &T::output_ratio_pct, "Share of them that leaves the luminaire");
  v.result("efficacy_lm_w", &T::efficacy_lm_w, "Lumens per watt");
  v.result("opening", &T::opening, "The luminous opening");
  v.result("tilt", &T::tilt, "LM-63: NONE, INCLUDE or the name of a file; its factors are no part of the light here");
  v.result("light", &T::light, "What the intensities come to");
}

}  // namespace duskwire::formats
