// SPDX-License-Identifier: Apache-2.0
// Potentials of both conductors, for readings of one conductor alone and for comparison with other solvers.

#include "electrical/partition.hpp"
#include "electrical/prepared.hpp"

namespace duskwire::electrical {
namespace {

double& at(Potentials& result, std::uint32_t node, bool b) { return b ? result.b_v[node] : result.a_v[node]; }

// Conductor by conductor down the tree: each segment drops the volts of its own resistance and current.
void walk_forest(const Prepared& prepared, const Solution& solution, const Condition& condition, Potentials& result) {
  const Forest& forest = prepared.forest;
  const Network& network = prepared.network;
  // Slots are parents first; a segment is walked when its child slot comes.
  std::vector<std::uint32_t> segment_of_slot(forest.parent.size(), nothing);
  for (std::uint32_t s = 0; s < network.segments.size(); ++s) {
    if (forest.segment_child[s] != nothing) segment_of_slot[forest.segment_child[s]] = s;
  }
  std::vector<std::uint32_t> output_of_slot(forest.parent.size(), nothing);
  for (std::uint32_t o = 0; o < network.outputs.size(); ++o) {
    if (forest.slot_of_output[o] != nothing) output_of_slot[forest.slot_of_output[o]] = o;
  }
  for (std::uint32_t slot = 0; slot < forest.parent.size(); ++slot) {
    if (output_of_slot[slot] != nothing) {
      const std::uint32_t node = network.outputs[output_of_slot[slot]].node;
      result.a_v[node] = solution.node_v[node];
      result.b_v[node] = 0;
    }
    if (segment_of_slot[slot] == nothing) continue;
    const Segment& segment = network.segments[segment_of_slot[slot]];
    const double drop_a_v = solution.segment_a_a[segment_of_slot[slot]] *
                            (segment.copper_a_ohm * condition.copper_factor + segment.contact_a_ohm);
    const double drop_b_v = solution.segment_b_a[segment_of_slot[slot]] *
                            (segment.copper_b_ohm * condition.copper_factor + segment.contact_b_ohm);
    if (forest.slot_of_node[segment.to] == slot) {
      at(result, segment.to, segment.crossed) = result.a_v[segment.from] - drop_a_v;
      at(result, segment.to, !segment.crossed) = result.b_v[segment.from] - drop_b_v;
    } else {
      result.a_v[segment.from] = at(result, segment.to, segment.crossed) + drop_a_v;
      result.b_v[segment.from] = at(result, segment.to, !segment.crossed) + drop_b_v;
    }
  }
}

// Beyond a half-open cable nothing flows: both conductors there float at the potential of the one that is whole.
void walk_dead_ends(const Prepared& prepared, Potentials& result) {
  const Network& network = prepared.network;
  std::vector<std::uint8_t> known(network.node_count, 0);
  for (std::uint32_t node = 0; node < network.node_count; ++node) {
    const PartShape shape = prepared.shape_of_part[prepared.part_of_node[node]];
    known[node] = prepared.forest.slot_of_node[node] != nothing || shape != PartShape::tree;
  }
  bool moved = true;
  while (moved) {
    moved = false;
    for (const Segment& segment : network.segments) {
      if (is_severed(segment) || known[segment.from] == known[segment.to]) continue;
      const bool forward = known[segment.from] != 0;
      const std::uint32_t near = forward ? segment.from : segment.to;
      const std::uint32_t far = forward ? segment.to : segment.from;
      // The conductor that is whole, as it is called at the near end.
      const bool whole_is_b = segment.open_a != (segment.crossed && !forward);
      result.a_v[far] = result.b_v[far] = at(result, near, whole_is_b);
      known[far] = 1;
      moved = true;
    }
  }
}

}  // namespace

Potentials potentials(const Prepared& prepared, const Condition& condition, Workspace& workspace) {
  Potentials result;
  result.a_v.assign(prepared.network.node_count, 0.0);
  result.b_v.assign(prepared.network.node_count, 0.0);
  const Solution& solution = solve(prepared, condition, workspace);
  walk_forest(prepared, solution, condition, result);
  walk_dead_ends(prepared, result);
  for (std::size_t i = 0; i < prepared.meshes.size(); ++i) {
    const MeshPart& part = prepared.meshes[i];
    const Eigen::VectorXd& x = workspace.meshes[i].x;
    const double reference_v = x[part.sources.front().b];
    for (std::size_t k = 0; k < part.nodes.size(); ++k) {
      const auto index = static_cast<Eigen::Index>(2 * k);
      result.a_v[part.nodes[k]] = x[index] - reference_v;
      result.b_v[part.nodes[k]] = x[index + 1] - reference_v;
    }
  }
  return result;
}

}  // namespace duskwire::electrical
