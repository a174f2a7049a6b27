// SPDX-License-Identifier: Apache-2.0
#include "estimate/ground_stretches.hpp"

namespace duskwire::estimate {

std::vector<job::GroundStretch> ground_stretches(const job::PlanGround& ground, const job::Cable& cable,
                                                 double route_m) {
  std::vector<job::GroundStretch> stretches;
  double path_m = 0;
  for (const job::GroundStretch& stretch : ground.along(cable.path)) {
    job::append(stretches, {stretch.kind ? stretch.kind : cable.ground, stretch.length_m});
    path_m += stretch.length_m;
  }
  if (stretches.empty()) {
    job::append(stretches, {cable.ground, route_m});
    return stretches;
  }
  for (job::GroundStretch& stretch : stretches) stretch.length_m *= route_m / path_m;
  return stretches;
}

bool is_hard(job::GroundKind ground) {
  return ground == job::GroundKind::paving || ground == job::GroundKind::drive || ground == job::GroundKind::street;
}

}  // namespace duskwire::estimate
