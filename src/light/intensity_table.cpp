// SPDX-License-Identifier: Apache-2.0
#include "light/intensity_table.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace duskwire::light {

void check_angles(std::span<const double> angles_deg, const char* what, double min_deg, double max_deg,
                  std::size_t line, IntensityFindings& findings) {
  for (std::size_t i = 0; i + 1 < angles_deg.size(); ++i) {
    if (angles_deg[i + 1] > angles_deg[i]) continue;
    findings.error(line, fmt::format("{} then {}", angles_deg[i], angles_deg[i + 1]), "each larger than the one before",
                   fmt::format("The {} must increase, but number {} is {} after {}. Values were lost, added or put in "
                               "another order.",
                               what, i + 2, angles_deg[i + 1], angles_deg[i]));
    break;
  }
  for (const double angle_deg : angles_deg) {
    if (angle_deg >= min_deg && angle_deg <= max_deg) continue;
    findings.error(
        line, fmt::format("{}", angle_deg), fmt::format("{} to {} degrees", min_deg, max_deg),
        fmt::format("Among the {}, {} degrees is out of range. Values were lost or added before it.", what, angle_deg));
    break;
  }
}

void apply_factor(std::vector<double>& intensity_cd, double factor, std::size_t line, IntensityFindings& findings) {
  std::size_t negative = 0;
  double lowest_cd = 0;
  double highest_cd = 0;
  for (double& value : intensity_cd) {
    value *= factor;
    if (value < 0) ++negative;
    lowest_cd = std::min(lowest_cd, value);
    highest_cd = std::max(highest_cd, value);
    value = std::max(value, 0.0);
  }
  if (negative > 0) {
    findings.warning(line, fmt::format("{}", lowest_cd), "0 cd or more",
                     fmt::format("{} of the intensities {} below zero. They are taken as 0.", negative,
                                 negative == 1 ? "is" : "are"));
  }
  if (!(highest_cd <= intensity_limit_cd)) {
    findings.error(line, fmt::format("{}", highest_cd), fmt::format("at most {} cd", intensity_limit_cd),
                   "An intensity is far above that of any lamp. A multiplier or a value is wrong.");
  }
}

void judge_table(const ListedTable& listed, IntensityFindings& findings) {
  const auto lit = [](double cd) { return cd > 0; };
  if (std::none_of(listed.intensity_cd.begin(), listed.intensity_cd.end(), lit)) {
    findings.warning(0, "0", "some intensity above 0", "Every intensity is 0: the lamp gives no light.");
  }
  if (listed.type != PhotometricType::c) return;
  const double first = listed.vertical_deg.front();
  const double last = listed.vertical_deg.back();
  if ((first == 0 || first == 90) && (last == 90 || last == 180)) return;
  findings.warning(
      0, fmt::format("{} to {}", first, last), "0 to 90, 90 to 180 or 0 to 180 degrees",
      fmt::format("The vertical angles run from {} to {} degrees. Outside of them the lamp is taken as dark.", first,
                  last));
}

}  // namespace duskwire::light
