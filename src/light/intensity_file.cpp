// SPDX-License-Identifier: Apache-2.0
// Words and the tilt factor of an intensity file.
#include "light/intensity_file.hpp"

#include <algorithm>

namespace duskwire::light {

const char* title_of(IntensityFormat format) {
  constexpr const char* titles[] = {"LM-63-1986", "LM-63-1991", "LM-63-1995", "LM-63-2002", "LM-63-2019", "EULUMDAT"};
  return titles[static_cast<std::size_t>(format)];
}

double tilt_factor(const LampTilt& tilt, double tilt_deg) {
  const std::vector<double>& angles = tilt.angle_deg;
  const auto above =
      static_cast<std::size_t>(std::lower_bound(angles.begin(), angles.end(), tilt_deg) - angles.begin());
  if (above == 0) return tilt.factor.front();
  if (above == angles.size()) return tilt.factor.back();
  const double share = (tilt_deg - angles[above - 1]) / (angles[above] - angles[above - 1]);
  return tilt.factor[above - 1] + share * (tilt.factor[above] - tilt.factor[above - 1]);
}

}  // namespace duskwire::light
