// SPDX-License-Identifier: Apache-2.0
#include "electrical/solver.hpp"

#include <algorithm>
#include <cmath>

#include "electrical/prepared.hpp"

namespace duskwire::electrical {

void WorkspaceDeleter::operator()(Workspace* workspace) const { delete workspace; }

Result<std::shared_ptr<const Prepared>> prepare(Network network) {
  const Problems problems = validate_errors(network);
  if (!problems.empty()) return Error{ErrorCode::invalid, problems.front().message};
  auto prepared = std::make_shared<Prepared>();
  {
    const Partition parts = partition(network);
    prepared->forest = build_forest(network, parts);
    prepared->meshes = build_mesh_parts(network, parts);
    for (const Part& part : parts.parts) prepared->shape_of_part.push_back(part.shape);
    prepared->part_of_node = parts.part_of_node;
  }
  prepared->network = std::move(network);
  return std::shared_ptr<const Prepared>(std::move(prepared));
}

const Network& network_of(const Prepared& prepared) { return prepared.network; }

bool is_radial(const Prepared& prepared) { return prepared.meshes.empty(); }

WorkspacePtr make_workspace(const Prepared& prepared) {
  WorkspacePtr workspace(new Workspace);
  resize(workspace->forest, prepared.forest);
  workspace->meshes = std::vector<MeshState>(prepared.meshes.size());
  for (std::size_t i = 0; i < prepared.meshes.size(); ++i) prepare_state(workspace->meshes[i], prepared.meshes[i]);
  const Network& network = prepared.network;
  Solution& solution = workspace->solution;
  solution.node_v.assign(network.node_count, 0.0);
  solution.segment_a_a.assign(network.segments.size(), 0.0);
  solution.segment_b_a.assign(network.segments.size(), 0.0);
  solution.load_v.assign(network.loads.size(), 0.0);
  solution.load_a.assign(network.loads.size(), 0.0);
  solution.load_state.assign(network.loads.size(), LampState::off);
  solution.load_light.assign(network.loads.size(), 0.0);
  solution.output_a.assign(network.outputs.size(), 0.0);
  solution.output_v.assign(network.outputs.size(), 0.0);
  solution.bridge_a.assign(network.bridges.size(), 0.0);
  return workspace;
}

namespace {

void load_all(const Prepared& prepared, const Condition& condition, Workspace& workspace) {
  load_condition(workspace.forest, prepared.forest, prepared.network, condition);
  for (std::size_t i = 0; i < prepared.meshes.size(); ++i) {
    load_condition(workspace.meshes[i], prepared.meshes[i], prepared.network, condition);
  }
}

inline void read_light(const Load& load, double level, double load_factor, double v, Solution& solution,
                       std::size_t index) {
  const double size_v = std::abs(v);
  // The usual lamp first: it decides how long a large network takes to read out.
  const bool usual = load.kind == LoadKind::regulated_led && size_v >= holding_v(load) &&
                     (size_v <= load.v_max || load.v_max == 0) && level * load_factor * load.power_va > 0;
  if (usual) {
    solution.load_light[index] = level;
    solution.load_state[index] = LampState::regulated;
    return;
  }
  solution.load_light[index] = load_light(load, level, v);
  solution.load_state[index] = load_state(load, load.power_va * load_factor * level, v);
}

void read_forest(const Prepared& prepared, const Condition& condition, const Workspace& workspace, Solution& solution) {
  const Forest& forest = prepared.forest;
  const ForestState& state = workspace.forest;
  const Network& network = prepared.network;
  for (std::size_t node = 0; node < forest.slot_of_node.size(); ++node) {
    const std::uint32_t slot = forest.slot_of_node[node];
    if (slot != nothing) solution.node_v[node] = forest.sign_of_node[node] * state.v[slot];
  }
  for (std::size_t s = 0; s < network.segments.size(); ++s) {
    const std::uint32_t slot = forest.segment_child[s];
    if (slot == nothing) continue;
    const Segment& segment = network.segments[s];
    // The line of the child's whole subtree gives the current through its parent edge, away from the source.
    const double away_a = state.y_s[slot] * state.v[slot] + state.w_a[slot];
    const bool forward = forest.slot_of_node[segment.to] == slot;
    const double a_a = forest.sign_of_node[segment.from] * (forward ? away_a : -away_a);
    solution.segment_a_a[s] = a_a;
    solution.segment_b_a[s] = -a_a;
  }
  for (std::size_t j = 0; j < network.loads.size(); ++j) {
    const std::uint32_t slot = forest.slot_of_load[j];
    if (slot == nothing) continue;
    const Load& load = network.loads[j];
    const double sign = forest.sign_of_node[load.plus.node] * (load.plus.conductor == Conductor::a ? 1.0 : -1.0);
    const double v = state.v[slot];
    // The load line in force touches the load's law at v.
    solution.load_v[j] = sign * v;
    solution.load_a[j] = sign * (state.slope_s[slot] * v + state.offset_a[slot]);
    read_light(load, level_of(condition, j), condition.load_factor, v, solution, j);
  }
  for (std::size_t o = 0; o < network.outputs.size(); ++o) {
    const std::uint32_t slot = forest.slot_of_output[o];
    if (slot == nothing) continue;
    solution.output_a[o] = state.y_s[slot] * state.v[slot] + state.w_a[slot];
    solution.output_v[o] = state.v[slot];
  }
}

void read_mesh(const MeshPart& part, const MeshState& state, const Network& network, const Condition& condition,
               Solution& solution) {
  for (std::size_t k = 0; k < part.nodes.size(); ++k) {
    const auto at = static_cast<Eigen::Index>(2 * k);
    solution.node_v[part.nodes[k]] = state.x[at] - state.x[at + 1];
  }
  for (std::size_t e = 0; e < part.edges.size(); ++e) {
    const MeshPart::Edge& edge = part.edges[e];
    const double current_a =
        edge.current == nothing ? (state.x[edge.p] - state.x[edge.q]) / state.edge_ohm[e] : state.x[edge.current];
    if (edge.bridge != nothing) {
      solution.bridge_a[edge.bridge] = current_a;
    } else {
      (edge.conductor_b ? solution.segment_b_a : solution.segment_a_a)[edge.segment] = current_a;
    }
  }
  for (const MeshPart::Source& source : part.sources) {
    solution.output_a[source.output] = state.x[source.current];
    solution.output_v[source.output] = state.x[source.a] - state.x[source.b];
  }
  for (std::size_t j = 0; j < part.lamps.size(); ++j) {
    const std::uint32_t index = part.bank.load[j];
    const Load& load = network.loads[index];
    solution.load_v[index] = state.v[j];
    solution.load_a[index] = state.slope_s[j] * state.v[j] + state.offset_a[j];
    read_light(load, level_of(condition, index), condition.load_factor, state.v[j], solution, index);
  }
}

void take(Solution& solution, const Outcome& outcome) {
  solution.converged = solution.converged && outcome.converged;
  solution.iterations = std::max(solution.iterations, outcome.iterations);
  solution.worst_residual_a = std::max(solution.worst_residual_a, outcome.residual_a);
}

}  // namespace

const Solution& solve(const Prepared& prepared, const Condition& condition, Workspace& workspace) {
  Solution& solution = workspace.solution;
  solution.converged = true;
  solution.iterations = 0;
  solution.worst_residual_a = 0;
  load_all(prepared, condition, workspace);
  for (const Forest::Block& block : prepared.forest.blocks) {
    ForestBlock backend(prepared.forest, block, workspace.forest);
    Outcome outcome = iterate(backend);
    // Newton in the range arrives far below its tolerance; the slow descent stops at it.
    if (outcome.converged && !outcome.regulated) polish(backend, outcome);
    take(solution, outcome);
  }
  read_forest(prepared, condition, workspace, solution);
  for (std::size_t i = 0; i < prepared.meshes.size(); ++i) {
    MeshState& state = workspace.meshes[i];
    MeshBackend backend(prepared.meshes[i], state);
    Outcome outcome = iterate(backend);
    if (outcome.converged) polish(backend, outcome);
    backend.settle_loose_ends();
    take(solution, outcome);
    if (!state.x.allFinite()) {  // never pass a NaN on: an unsolvable part reads as dark and not converged
      state.x.setZero();
      std::fill(state.v.begin(), state.v.end(), 0.0);
      std::fill(state.offset_a.begin(), state.offset_a.end(), 0.0);
      solution.converged = false;
    }
    read_mesh(prepared.meshes[i], state, prepared.network, condition, solution);
  }
  return solution;
}

Result<Solution> solve(Network network, const Condition& condition) {
  auto prepared = prepare(std::move(network));
  if (!prepared) return prepared.error();
  const WorkspacePtr workspace = make_workspace(*prepared.value());
  return solve(*prepared.value(), condition, *workspace);
}

namespace {

// Whether every LED of a part holds regulation. Newton's first step out of range settles it where its descent is proven
// (trees of regulated LEDs); elsewhere a step may dip and come back, so the full iteration decides.
template <class Backend>
bool bears(Backend& backend, bool first_dip_settles) {
  const Outcome outcome = iterate_regulated(backend);
  if (outcome.converged) return outcome.regulated;
  if (first_dip_settles || !iterate_from_above(backend).converged) return false;
  return !backend.linearise(Linearisation::tangent).below_regulation;
}

}  // namespace

RegulatedRun run_regulated(const Prepared& prepared, const Condition& condition, Workspace& workspace) {
  load_all(prepared, condition, workspace);
  RegulatedRun run;
  double least_room_v = HUGE_VAL;
  const auto note = [&](std::uint32_t load, double v) {
    if (load == nothing || prepared.network.loads[load].power_va <= 0) return;
    const Load& lamp = prepared.network.loads[load];
    if (!is_led(lamp.kind) || level_of(condition, load) <= 0) return;
    const double room_v = std::abs(v) - holding_v(lamp);
    if (room_v < least_room_v) {
      least_room_v = room_v;
      run.lowest_load = load;
    }
  };
  for (const Forest::Block& block : prepared.forest.blocks) {
    ForestBlock backend(prepared.forest, block, workspace.forest);
    run.regulated = bears(backend, block.convex);
    for (std::size_t k = block.first; k < block.last; ++k) note(prepared.forest.bank.load[k], workspace.forest.v[k]);
    if (!run.regulated) return run;
  }
  for (std::size_t i = 0; i < prepared.meshes.size(); ++i) {
    MeshBackend backend(prepared.meshes[i], workspace.meshes[i]);
    run.regulated = bears(backend, false);
    for (std::size_t j = 0; j < prepared.meshes[i].lamps.size(); ++j) {
      note(prepared.meshes[i].bank.load[j], workspace.meshes[i].v[j]);
    }
    if (!run.regulated) return run;
  }
  // A lamp without supply is not regulated either.
  for (std::size_t j = 0; j < prepared.network.loads.size() && run.regulated; ++j) {
    const Load& lamp = prepared.network.loads[j];
    const bool counts = is_led(lamp.kind) && lamp.power_va > 0 && level_of(condition, j) > 0;
    if (!counts || prepared.forest.slot_of_load[j] != nothing) continue;
    const PartShape shape = prepared.shape_of_part[prepared.part_of_node[lamp.plus.node]];
    if (shape == PartShape::mesh) continue;
    run.regulated = false;
    run.lowest_load = static_cast<std::uint32_t>(j);
  }
  return run;
}

}  // namespace duskwire::electrical
