// SPDX-License-Identifier: Apache-2.0
// Lays one meshed part out as unknowns and a matrix pattern.
#include <algorithm>

#include "electrical/mesh.hpp"

namespace duskwire::electrical {
namespace {

// Below this an edge's conductance would drown the rounding of potentials: it gets an explicit current.
constexpr double explicit_below_ohm = 1e-5;

// What belongs to one meshed part, by index in the network.
struct Members {
  std::vector<std::uint32_t> segments;
  std::vector<std::uint32_t> bridges;
  std::vector<std::uint32_t> loads;
};

class MeshBuilder {
 public:
  MeshBuilder(const Network& network, const Partition& partition, const Part& part, const Members& members)
      : network_(network), partition_(partition), part_(part), members_(members) {
    mesh_.nodes.assign(partition.nodes.begin() + part.node_begin, partition.nodes.begin() + part.node_end);
    mesh_.unknowns = static_cast<std::uint32_t>(2 * mesh_.nodes.size());
  }

  MeshPart build() {
    for (const std::uint32_t s : members_.segments) add_segment(s);
    for (const std::uint32_t b : members_.bridges) add_bridge(b);
    for (std::uint32_t at = part_.output_begin; at < part_.output_end; ++at) add_source(partition_.outputs[at]);
    mesh_.total = mesh_.unknowns + explicit_edges_;
    for (MeshPart::Edge& edge : mesh_.edges) {
      if (edge.current != nothing) edge.current += mesh_.unknowns;
    }
    add_couplings();
    for (const std::uint32_t j : members_.loads) add_lamp(j);
    find_clusters();
    lay_pattern();
    return std::move(mesh_);
  }

 private:
  [[nodiscard]] std::uint32_t local(std::uint32_t node) const {
    const auto found = std::lower_bound(mesh_.nodes.begin(), mesh_.nodes.end(), node);
    return static_cast<std::uint32_t>(found - mesh_.nodes.begin());
  }
  [[nodiscard]] std::uint32_t unknown(Terminal terminal) const {
    return 2 * local(terminal.node) + static_cast<std::uint32_t>(terminal.conductor);
  }

  void add_edge(MeshPart::Edge edge) {
    if (edge.p == edge.q) return;
    if (edge.copper_ohm + edge.fixed_ohm < explicit_below_ohm) edge.current = explicit_edges_++;
    mesh_.edges.push_back(edge);
  }

  void add_segment(std::uint32_t s) {
    const Segment& segment = network_.segments[s];
    const auto far = [&](Conductor near) {
      const bool b = (near == Conductor::b) != segment.crossed;
      return unknown({segment.to, b ? Conductor::b : Conductor::a});
    };
    MeshPart::Edge edge;
    edge.segment = s;
    if (!segment.open_a) {
      edge.p = unknown({segment.from, Conductor::a});
      edge.q = far(Conductor::a);
      edge.copper_ohm = segment.copper_a_ohm;
      edge.fixed_ohm = segment.contact_a_ohm;
      add_edge(edge);
    }
    if (!segment.open_b) {
      edge.p = unknown({segment.from, Conductor::b});
      edge.q = far(Conductor::b);
      edge.copper_ohm = segment.copper_b_ohm;
      edge.fixed_ohm = segment.contact_b_ohm;
      edge.conductor_b = true;
      add_edge(edge);
    }
  }

  void add_bridge(std::uint32_t b) {
    const Bridge& bridge = network_.bridges[b];
    MeshPart::Edge edge;
    edge.bridge = b;
    edge.p = unknown(bridge.p);
    edge.q = unknown(bridge.q);
    edge.fixed_ohm = std::max(bridge.r_ohm, bridge_min_ohm);
    add_edge(edge);
  }

  void add_source(std::uint32_t o) {
    const Output& output = network_.outputs[o];
    mesh_.sources.push_back(
        {unknown({output.node, Conductor::a}), unknown({output.node, Conductor::b}), mesh_.unknowns++, o});
  }

  void add_couplings() {
    for (std::size_t i = 0; i < mesh_.sources.size(); ++i) {
      for (std::size_t j = 0; j < i; ++j) {
        const Output& first = network_.outputs[mesh_.sources[i].output];
        const Output& second = network_.outputs[mesh_.sources[j].output];
        const double shared = network_.transformers[first.transformer].r_shared_ohm;
        if (first.transformer != second.transformer || shared <= 0) continue;
        mesh_.couplings.push_back({mesh_.sources[i].current, mesh_.sources[j].current, shared, -1});
      }
    }
  }

  void add_lamp(std::uint32_t j) {
    const Load& load = network_.loads[j];
    mesh_.bank.add(load, j);
    mesh_.lamps.push_back({unknown(load.plus), unknown(load.minus), -1});
  }

  void find_clusters() {
    const auto points = static_cast<std::uint32_t>(2 * mesh_.nodes.size());
    std::vector<std::uint32_t>& cluster = mesh_.cluster;
    cluster.resize(points);
    for (std::uint32_t i = 0; i < points; ++i) cluster[i] = i;
    const auto root = [&](std::uint32_t i) {
      while (cluster[i] != i) i = cluster[i] = cluster[cluster[i]];
      return i;
    };
    for (const MeshPart::Edge& edge : mesh_.edges) cluster[root(edge.p)] = root(edge.q);
    for (std::uint32_t i = 0; i < points; ++i) cluster[i] = root(i);
    mesh_.fed.assign(points, 0);
    for (const MeshPart::Source& source : mesh_.sources)
      mesh_.fed[cluster[source.a]] = mesh_.fed[cluster[source.b]] = 1;
  }

  [[nodiscard]] int place(std::uint32_t i, std::uint32_t j) const {
    const auto row = static_cast<int>(std::max(i, j));
    const auto column = static_cast<int>(std::min(i, j));
    const int* begin = mesh_.pattern.innerIndexPtr() + mesh_.pattern.outerIndexPtr()[column];
    const int* end = mesh_.pattern.innerIndexPtr() + mesh_.pattern.outerIndexPtr()[column + 1];
    return static_cast<int>(std::lower_bound(begin, end, row) - mesh_.pattern.innerIndexPtr());
  }

  void lay_pattern() {
    std::vector<Eigen::Triplet<double>> entries;
    const auto put = [&](std::uint32_t i, std::uint32_t j) {
      entries.emplace_back(static_cast<int>(std::max(i, j)), static_cast<int>(std::min(i, j)), 1.0);
    };
    for (std::uint32_t i = 0; i < mesh_.unknowns; ++i) put(i, i);
    for (const MeshPart::Edge& edge : mesh_.edges) put(edge.p, edge.q);
    for (const MeshPart::Source& source : mesh_.sources) {
      put(source.current, source.a);
      put(source.current, source.b);
    }
    for (const MeshPart::Coupling& coupling : mesh_.couplings) put(coupling.i, coupling.j);
    for (const MeshPart::Lamp& lamp : mesh_.lamps) {
      if (lamp.plus != lamp.minus) put(lamp.plus, lamp.minus);
    }
    mesh_.pattern.resize(static_cast<int>(mesh_.unknowns), static_cast<int>(mesh_.unknowns));
    mesh_.pattern.setFromTriplets(entries.begin(), entries.end());
    mesh_.pattern.makeCompressed();
    find_places();
  }

  void find_places() {
    for (std::uint32_t i = 0; i < mesh_.unknowns; ++i) mesh_.at_diagonal.push_back(place(i, i));
    for (MeshPart::Edge& edge : mesh_.edges) edge.at = place(edge.p, edge.q);
    for (MeshPart::Coupling& coupling : mesh_.couplings) coupling.at = place(coupling.i, coupling.j);
    for (MeshPart::Lamp& lamp : mesh_.lamps) {
      if (lamp.plus != lamp.minus) lamp.at = place(lamp.plus, lamp.minus);
    }
  }

  const Network& network_;
  const Partition& partition_;
  const Part& part_;
  const Members& members_;
  std::uint32_t explicit_edges_ = 0;
  MeshPart mesh_;
};

}  // namespace

std::vector<MeshPart> build_mesh_parts(const Network& network, const Partition& partition) {
  // One walk over the network deals everything out, so that many small meshes cost no more than one large one.
  std::vector<std::uint32_t> mesh_of_part(partition.parts.size(), nothing);
  std::uint32_t meshes = 0;
  for (std::size_t p = 0; p < partition.parts.size(); ++p) {
    if (partition.parts[p].shape == PartShape::mesh) mesh_of_part[p] = meshes++;
  }
  std::vector<MeshPart> result;
  if (meshes == 0) return result;
  std::vector<Members> members(meshes);
  const auto deal = [&](std::uint32_t node, auto Members::*list, std::size_t index) {
    const std::uint32_t mesh = mesh_of_part[partition.part_of_node[node]];
    if (mesh != nothing) (members[mesh].*list).push_back(static_cast<std::uint32_t>(index));
  };
  for (std::size_t s = 0; s < network.segments.size(); ++s) deal(network.segments[s].from, &Members::segments, s);
  for (std::size_t b = 0; b < network.bridges.size(); ++b) deal(network.bridges[b].p.node, &Members::bridges, b);
  for (std::size_t j = 0; j < network.loads.size(); ++j) deal(network.loads[j].plus.node, &Members::loads, j);
  for (std::size_t p = 0; p < partition.parts.size(); ++p) {
    if (mesh_of_part[p] == nothing) continue;
    result.push_back(MeshBuilder(network, partition, partition.parts[p], members[mesh_of_part[p]]).build());
  }
  return result;
}

}  // namespace duskwire::electrical
