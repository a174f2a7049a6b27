// SPDX-License-Identifier: Apache-2.0
// How this garden's light is to be judged: by which levels, how much may leave the lot, and which lamps the client has
// accepted to be seen.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "job/extra.hpp"

namespace duskwire::job {

// A lamp that may be seen from a view point: looked at and agreed to.
struct AcceptedSight {
  std::string luminaire;
  std::string view_point;
  std::string note;
  Extra extra;

  bool operator==(const AcceptedSight&) const = default;
};

struct LightPlan {
  std::string targets;                           // id of a set of levels; empty: those for gardens
  std::optional<double> property_line_limit_lx;  // where absent as the set of levels says
  std::optional<double> window_limit_lx;
  std::vector<AcceptedSight> accepted;
  Extra extra;

  bool operator==(const LightPlan&) const = default;
};

}  // namespace duskwire::job
