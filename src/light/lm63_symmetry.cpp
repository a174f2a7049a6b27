// SPDX-License-Identifier: Apache-2.0
// Symmetry rules of LM-63: last C of 0, 90, 180 and above 180 as copied in a drawing program's manual; 90 to 270 and
// types A and B from memory.
#include "light/lm63_symmetry.hpp"

#include <fmt/format.h>

#include "light/intensity_table.hpp"

namespace duskwire::light {
namespace {

void symmetry_of_type_c(ListedTable& listed, std::size_t line, IntensityFindings& findings) {
  const double first = listed.horizontal_deg.front();
  const double last = listed.horizontal_deg.back();
  if (listed.horizontal_deg.size() == 1) {
    listed.symmetry = IntensitySymmetry::axial;
    if (first == 0) return;
    findings.warning(line, fmt::format("{}", first), "0",
                     "The only horizontal angle is not 0. Its plane is taken for the whole turn.");
  } else if (first == 0 && last == 90) {
    listed.symmetry = IntensitySymmetry::quadrants;
  } else if (first == 0 && last == 180) {
    listed.symmetry = IntensitySymmetry::mirror_0_180;
  } else if (first == 90 && last == 270) {
    listed.symmetry = IntensitySymmetry::mirror_90_270;
  } else if (first == 0 && last > 180) {
    if (last == 360) return;
    findings.warning(
        line, fmt::format("{}", last), "360",
        fmt::format("The horizontal angles end at {} degrees. The turn is closed by the plane at 0.", last));
  } else {
    findings.error(line, fmt::format("{} to {}", first, last),
                   "0 alone, 0 to 90, 0 to 180, 0 to 360, or 90 to 270 degrees",
                   fmt::format("Horizontal angles from {} to {} degrees say nothing about the rest of the turn. Values "
                               "were lost, or the file holds a part of the measurement only.",
                               first, last));
  }
}

// Types A and B: a first angle of 0 mirrors, one below does not. For the vertical angles the standard's text was not
// seen; a floodlight that is bright at V = 0 and dark at once below it is hardly meant.
void symmetry_of_types_a_b(ListedTable& listed, std::size_t line, IntensityFindings& findings) {
  for (const auto* angles_deg : {&listed.horizontal_deg, &listed.vertical_deg}) {
    if (angles_deg->size() >= 2) continue;
    findings.error(line, fmt::format("{}", angles_deg->size()), "two or more",
                   "Types A and B need two or more angles each way. Values were lost, or the type is wrong.");
    return;
  }
  const bool left_right = listed.horizontal_deg.front() == 0;
  const bool up_down = listed.vertical_deg.front() == 0;
  listed.symmetry = left_right && up_down ? IntensitySymmetry::quarters
                    : left_right          ? IntensitySymmetry::left_right
                    : up_down             ? IntensitySymmetry::up_down
                                          : IntensitySymmetry::none;
  if (!up_down) return;
  findings.warning(
      line, "0", "vertical angles from -90 degrees",
      "The vertical angles begin at 0. The lower half is taken as the mirror of the upper one: compare the "
      "flux with the maker's sheet.");
}

}  // namespace

void check_horizontal_angles(ListedTable& listed, std::size_t line, IntensityFindings& findings) {
  if (listed.horizontal_deg.empty() || listed.vertical_deg.empty()) return;
  if (listed.type == PhotometricType::c) {
    check_angles(listed.horizontal_deg, "horizontal angles", 0, 360, line, findings);
    if (listed.vertical_deg.size() < 2) {
      findings.error(line, "1", "two or more", "One vertical angle makes no table. Values were lost.");
    }
    symmetry_of_type_c(listed, line, findings);
    return;
  }
  const double end_deg = listed.type == PhotometricType::a ? 180 : 90;
  check_angles(listed.horizontal_deg, "horizontal angles", -end_deg, end_deg, line, findings);
  symmetry_of_types_a_b(listed, line, findings);
}

}  // namespace duskwire::light
