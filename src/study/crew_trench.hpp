// SPDX-License-Identifier: Apache-2.0
// The trench list: metres to dig by ground and depth, each stretch once, as estimate/trench.hpp digs them; and the
// sleeves with what goes through each.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "job/job.hpp"

namespace duskwire::study {

// All stretches of one kind of ground at one depth.
struct CrewTrench {
  std::optional<job::GroundKind> ground;  // empty: not on the plan
  std::optional<double> cover_m;          // to the top of the cable; absent: the job gives none
  double dug_m = 0;
  double shared_m = 0;    // cable that lies in a trench of another
  double pulled_m = 0;    // cable through sleeves
  double fastened_m = 0;  // along a building or below a deck
  double minutes = 0;     // estimate
  std::vector<std::string> cables;
  // Of these cables, those that lie in a trench which a shallower cable was counted for: it goes down to their depth.
  std::vector<std::string> deeper_in_shared;
};

struct CrewSleeve {
  std::string id;
  double length_m = 0;
  double diameter_mm = 0;
  double depth_m = 0;
  std::vector<std::string> cables;  // that go through it
  bool laid = false;                // in the ground already; else it is laid, and its crossing counts as dug
};

struct CrewGround {
  std::vector<CrewTrench> trenches;  // by ground in the order of its kinds, then the shallower first
  std::vector<CrewSleeve> sleeves;   // in the order of the plan
  double dug_m = 0;
  double minutes = 0;
};

// A sleeve that the job does not know to be in the ground is still to be laid, as the price has it.
[[nodiscard]] CrewGround crew_ground(const job::Job& job);

}  // namespace duskwire::study
