// SPDX-License-Identifier: Apache-2.0
#include "electrical/partition.hpp"

#include <numeric>

namespace duskwire::electrical {
namespace {

class UnionFind {
 public:
  explicit UnionFind(std::size_t size) : parent_(size) { std::iota(parent_.begin(), parent_.end(), 0u); }
  std::uint32_t find(std::uint32_t x) {
    while (parent_[x] != x) {
      parent_[x] = parent_[parent_[x]];
      x = parent_[x];
    }
    return x;
  }
  // False if they were one already.
  bool unite(std::uint32_t x, std::uint32_t y) {
    x = find(x);
    y = find(y);
    if (x == y) return false;
    if (x < y) std::swap(x, y);  // the smaller index leads: parts come in the order of their first node
    parent_[x] = y;
    return true;
  }

 private:
  std::vector<std::uint32_t> parent_;
};

// The first output of each transformer whose windings feel each other through a shared resistance.
std::vector<std::uint32_t> first_output_of_coupled(const Network& network) {
  std::vector<std::uint32_t> first(network.transformers.size(), nothing);
  for (std::uint32_t o = 0; o < network.outputs.size(); ++o) {
    const std::uint32_t t = network.outputs[o].transformer;
    if (network.transformers[t].r_shared_ohm > 0 && first[t] == nothing) first[t] = o;
  }
  return first;
}

// Marks, by root node, the groups that are no trees. `reach` joins nodes by anything that conducts (whole or half open
// cable, bridges, loads between nodes), not yet by shared windings.
struct Groups {
  UnionFind reach;
  std::vector<std::uint8_t> meshed;  // by node; read at roots
};

Groups group_nodes(const Network& network) {
  Groups groups{UnionFind(network.node_count), std::vector<std::uint8_t>(network.node_count, 0)};
  std::vector<std::uint32_t> closing;  // nodes inside whose group something closes a loop
  for (const Segment& segment : network.segments) {
    if (is_severed(segment)) continue;
    if (!groups.reach.unite(segment.from, segment.to)) closing.push_back(segment.from);
  }
  const auto tie = [&](Terminal p, Terminal q) {
    groups.reach.unite(p.node, q.node);
    closing.push_back(p.node);
  };
  for (const Bridge& bridge : network.bridges) tie(bridge.p, bridge.q);
  for (const Load& load : network.loads) {
    if (load.plus.node != load.minus.node) tie(load.plus, load.minus);
  }
  for (const std::uint32_t node : closing) groups.meshed[groups.reach.find(node)] = 1;
  // Two outputs on one group, even through a half-open cable, make it a mesh.
  std::vector<std::uint8_t> fed(network.node_count, 0);
  for (const Output& output : network.outputs) {
    const std::uint32_t root = groups.reach.find(output.node);
    if (fed[root]) groups.meshed[root] = 1;
    fed[root] = 1;
  }
  return groups;
}

}  // namespace

Partition partition(const Network& network) {
  Groups groups = group_nodes(network);
  const std::uint32_t n = network.node_count;
  std::vector<std::uint8_t> meshed(n, 0);
  for (std::uint32_t node = 0; node < n; ++node) {
    if (groups.meshed[groups.reach.find(node)]) meshed[node] = 1;
  }
  const std::vector<std::uint32_t> coupled = first_output_of_coupled(network);
  for (const Output& output : network.outputs) {
    const std::uint32_t first = coupled[output.transformer];
    if (first != nothing) groups.reach.unite(output.node, network.outputs[first].node);
  }

  Partition result;
  result.part_of_node.assign(n, nothing);
  for (std::uint32_t node = 0; node < n; ++node) {
    const std::uint32_t root = groups.reach.find(node);  // root <= node, so it has its part already
    if (root == node) {
      result.part_of_node[node] = static_cast<std::uint32_t>(result.parts.size());
      result.parts.emplace_back();
    } else {
      result.part_of_node[node] = result.part_of_node[root];
    }
    Part& part = result.parts[result.part_of_node[node]];
    ++part.node_end;  // counts for now
    if (meshed[node]) part.shape = PartShape::mesh;
  }
  for (const Output& output : network.outputs) {
    Part& part = result.parts[result.part_of_node[output.node]];
    ++part.output_end;
    if (part.shape == PartShape::dead) part.shape = PartShape::tree;
  }
  std::uint32_t nodes = 0;
  std::uint32_t outputs = 0;
  for (Part& part : result.parts) {
    if (part.output_end == 0) part.shape = PartShape::dead;
    part.node_begin = nodes;
    part.output_begin = outputs;
    nodes += part.node_end;
    outputs += part.output_end;
    part.node_end = part.node_begin;
    part.output_end = part.output_begin;
  }
  result.nodes.resize(nodes);
  result.outputs.resize(outputs);
  for (std::uint32_t node = 0; node < n; ++node) {
    result.nodes[result.parts[result.part_of_node[node]].node_end++] = node;
  }
  for (std::uint32_t o = 0; o < network.outputs.size(); ++o) {
    result.outputs[result.parts[result.part_of_node[network.outputs[o].node]].output_end++] = o;
  }
  return result;
}

}  // namespace duskwire::electrical
