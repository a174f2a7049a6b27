// SPDX-License-Identifier: Apache-2.0
#include "light/eulumdat_planes.hpp"

#include <fmt/format.h>

namespace duskwire::light {
namespace {

// A plane that a symmetry needs is not where it should be.
void demand_plane(std::span<const double> c_deg, std::size_t index, double wanted_deg, std::size_t isym,
                  std::size_t line, IntensityFindings& findings) {
  if (index < c_deg.size() && c_deg[index] == wanted_deg) return;
  findings.error(line, index < c_deg.size() ? fmt::format("{}", c_deg[index]) : std::string(),
                 fmt::format("{} degrees", wanted_deg),
                 fmt::format("With symmetry {} the C angle number {} must be {}. Lines were lost or added, or the "
                             "symmetry in line 3 is wrong.",
                             isym, index + 1, wanted_deg));
}

void demand_divisible(std::span<const double> c_deg, std::size_t by, std::size_t isym, IntensityFindings& findings) {
  if (c_deg.size() % by == 0) return;
  findings.error(
      4, fmt::format("{}", c_deg.size()), fmt::format("a multiple of {}", by),
      fmt::format("With symmetry {} the count of C planes must be a multiple of {}. The count or the symmetry "
                  "is wrong.",
                  isym, by));
}

void axial(ListedTable& listed, IntensitySymmetry symmetry) {
  listed.symmetry = symmetry;
  listed.horizontal_deg = {0};
}

}  // namespace

std::size_t eulumdat_plane_count(std::size_t isym, std::size_t c_count) {
  if (isym == 1) return 1;
  if (isym == 2 || isym == 3) return c_count / 2 + 1;
  return isym == 4 ? c_count / 4 + 1 : c_count;
}

void choose_eulumdat_planes(ListedTable& listed, std::size_t isym, std::span<const double> c_deg, std::size_t line,
                            IntensityFindings& findings) {
  const std::size_t quarter = c_deg.size() / 4;
  const auto first = [&](std::size_t count) {
    listed.horizontal_deg.assign(c_deg.begin(),
                                 c_deg.begin() + static_cast<std::ptrdiff_t>(std::min(count, c_deg.size())));
  };
  switch (isym) {
    case 1:
      axial(listed, IntensitySymmetry::axial);
      return;
    case 2:
      listed.symmetry = IntensitySymmetry::mirror_0_180;
      demand_divisible(c_deg, 2, isym, findings);
      demand_plane(c_deg, 0, 0, isym, line, findings);
      demand_plane(c_deg, c_deg.size() / 2, 180, isym, line, findings);
      first(c_deg.size() / 2 + 1);
      return;
    case 3:
      listed.symmetry = IntensitySymmetry::mirror_90_270;
      demand_divisible(c_deg, 4, isym, findings);
      demand_plane(c_deg, quarter, 90, isym, line, findings);
      demand_plane(c_deg, 3 * quarter, 270, isym, line, findings);
      for (std::size_t i = 3 * quarter; i < c_deg.size(); ++i) listed.horizontal_deg.push_back(c_deg[i] - 360);
      for (std::size_t i = 0; i <= quarter && i < c_deg.size(); ++i) listed.horizontal_deg.push_back(c_deg[i]);
      return;
    case 4:
      listed.symmetry = IntensitySymmetry::quadrants;
      demand_divisible(c_deg, 4, isym, findings);
      demand_plane(c_deg, 0, 0, isym, line, findings);
      demand_plane(c_deg, quarter, 90, isym, line, findings);
      first(quarter + 1);
      return;
    default:
      first(c_deg.size());
      if (c_deg.size() > 1) return;
      axial(listed, IntensitySymmetry::axial);
      findings.warning(
          3, fmt::format("{}", isym), "1",
          "One plane alone is no table without symmetry. It is taken for the whole turn, as symmetry 1 says.");
  }
}

}  // namespace duskwire::light
