// SPDX-License-Identifier: Apache-2.0
// The names that stand for enumerators in documents. An enumerator's number is its index here.
#pragma once

#include <array>

#include "base/problem.hpp"
#include "formats/shape.hpp"
#include "job/job.hpp"

namespace duskwire::formats {

constexpr auto names(Of<job::LampKind>) {
  return std::array{"regulated_led", "filament", "resistive", "constant_current_led"};
}
constexpr auto names(Of<job::LuminaireKind>) {
  return std::array{"path",  "bullet",  "wall_wash",  "well",          "tree_downlight", "step",
                    "strip", "bollard", "underwater", "retrofit_lamp", "halogen_lamp"};
}
constexpr auto names(Of<job::BeamShape>) {
  return std::array{"by_kind", "spot", "flood", "wash", "ring", "half_ring", "strip", "step", "all_round"};
}
constexpr auto names(Of<job::ControlKind>) {
  return std::array{"astronomic_timer", "mechanical_timer", "photocell", "surge", "other"};
}
constexpr auto names(Of<job::SundryKind>) {
  return std::array{"stake", "staple", "sleeve", "tag", "post_mount", "tree_mount", "drainage", "other"};
}
constexpr auto names(Of<job::GroundKind>) {
  return std::array{"bed",  "lawn", "gravel", "paving", "drive", "street",    "building",
                    "deck", "wall", "steps",  "water",  "pool",  "root_zone", "forbidden"};
}
constexpr auto names(Of<job::ViewPointKind>) {
  return std::array{"street", "door", "window", "neighbour_window", "seat", "other"};
}
constexpr auto names(Of<job::DisplayUnits>) { return std::array{"metric", "us"}; }
constexpr auto names(Of<job::Mounting>) { return std::array{"wall", "post", "indoors"}; }
constexpr auto names(Of<job::JointKind>) { return std::array{"in_line", "branch", "hub", "end_of_run"}; }
constexpr auto names(Of<job::CalibrationMethod>) {
  return std::array{"vanishing_points", "focal_length", "known_points"};
}
constexpr auto names(Of<job::SurfaceKind>) { return std::array{"wall", "ground", "roof", "steps", "other"}; }
constexpr auto names(Of<job::MaskKind>) { return std::array{"sky", "window", "other"}; }
constexpr auto names(Of<job::Soil>) { return std::array{"sand", "loam", "clay", "stony", "rock"}; }
constexpr auto names(Of<job::TaxBase>) { return std::array{"whole_price", "material"}; }
constexpr auto names(Of<job::OptionKind>) { return std::array{"part", "phase", "variant"}; }
constexpr auto names(Of<job::SwitchBase>) { return std::array{"clock", "sunset", "sunrise"}; }
constexpr auto names(Of<job::VisitKind>) {
  return std::array{"survey", "installation", "commissioning", "night_visit", "hand_over", "care", "service", "other"};
}
constexpr auto names(Of<Severity>) { return std::array{"note", "warning", "error"}; }

}  // namespace duskwire::formats
