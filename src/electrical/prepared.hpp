// SPDX-License-Identifier: Apache-2.0
// What a prepared network and a workspace hold. Internal to the room.
#pragma once

#include <vector>

#include "electrical/forest.hpp"
#include "electrical/mesh.hpp"
#include "electrical/network.hpp"
#include "electrical/partition.hpp"
#include "electrical/solution.hpp"
#include "electrical/solver.hpp"

namespace duskwire::electrical {

class Prepared {
 public:
  Network network;
  std::vector<PartShape> shape_of_part;  // kept for questions after preparation
  std::vector<std::uint32_t> part_of_node;
  Forest forest;
  std::vector<MeshPart> meshes;
};

struct Workspace {
  ForestState forest;
  std::vector<MeshState> meshes;
  Solution solution;
};

// Loads the condition and iterates every part; false as soon as one part is not regulated throughout (its lamps then
// hold the volts at which that was seen).
struct RegulatedRun {
  bool regulated = true;
  std::uint32_t lowest_load = nothing;  // with the least volts over its regulation, or the one that left first
};
[[nodiscard]] RegulatedRun run_regulated(const Prepared& prepared, const Condition& condition, Workspace& workspace);

}  // namespace duskwire::electrical
