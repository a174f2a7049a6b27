// SPDX-License-Identifier: Apache-2.0
// Lays the trees of a network out as slots.
#include <algorithm>

#include "electrical/forest.hpp"

namespace duskwire::electrical {
namespace {

// Lists by node as one array with offsets.
struct ByNode {
  std::vector<std::uint32_t> begin;  // node_count + 1
  std::vector<std::uint32_t> items;
};

template <class ForEach>
ByNode group_by_node(std::uint32_t node_count, ForEach&& for_each) {
  ByNode lists;
  lists.begin.assign(node_count + 1, 0);
  for_each([&](std::uint32_t node, std::uint32_t) { ++lists.begin[node + 1]; });
  for (std::uint32_t node = 0; node < node_count; ++node) lists.begin[node + 1] += lists.begin[node];
  lists.items.resize(lists.begin[node_count]);
  std::vector<std::uint32_t> at(lists.begin.begin(), lists.begin.end() - 1);
  for_each([&](std::uint32_t node, std::uint32_t item) { lists.items[at[node]++] = item; });
  return lists;
}

class Builder {
 public:
  Builder(const Network& network, const Partition& partition) : network_(network), partition_(partition) {
    const std::uint32_t n = network.node_count;
    segments_ = group_by_node(n, [&](auto&& put) {
      for (std::uint32_t s = 0; s < network.segments.size(); ++s) {
        const Segment& segment = network.segments[s];
        if (!is_whole(segment) || !in_tree(segment.from)) continue;
        put(segment.from, s);
        put(segment.to, s);
      }
    });
    loads_ = group_by_node(n, [&](auto&& put) {
      for (std::uint32_t j = 0; j < network.loads.size(); ++j) {
        const Load& load = network.loads[j];
        if (is_across_one_node(load.plus, load.minus) && in_tree(load.plus.node)) put(load.plus.node, j);
      }
    });
    forest_.slot_of_node.assign(n, nothing);
    forest_.sign_of_node.assign(n, 1);
    forest_.slot_of_load.assign(network.loads.size(), nothing);
    forest_.segment_child.assign(network.segments.size(), nothing);
    forest_.slot_of_output.assign(network.outputs.size(), nothing);
    reserve();
  }

  Forest build() {
    constexpr std::uint32_t block_slots = 256;
    std::vector<std::uint32_t> group;
    std::uint32_t slots = 0;
    for (std::uint32_t p = 0; p < partition_.parts.size(); ++p) {
      const Part& part = partition_.parts[p];
      if (part.shape != PartShape::tree) continue;
      group.push_back(p);
      slots += part.node_end - part.node_begin + 1;
      if (slots >= block_slots) {
        lay_block(group);
        group.clear();
        slots = 0;
      }
    }
    if (!group.empty()) lay_block(group);
    return std::move(forest_);
  }

 private:
  struct Reached {
    std::uint32_t node;
    std::uint32_t slot;
  };

  [[nodiscard]] bool in_tree(std::uint32_t node) const {
    return partition_.parts[partition_.part_of_node[node]].shape == PartShape::tree;
  }

  void reserve() {
    std::size_t slots = loads_.items.size() + 2 * partition_.parts.size();
    std::size_t tree_nodes = 0;
    for (const Part& part : partition_.parts) {
      if (part.shape == PartShape::tree) tree_nodes += part.node_end - part.node_begin;
    }
    // Most nodes carry one load or none; the rest grows as needed.
    slots = std::max(slots, tree_nodes + 2 * partition_.parts.size());
    forest_.parent.reserve(slots);
    forest_.copper_ohm.reserve(slots);
    forest_.fixed_ohm.reserve(slots);
    forest_.bank.s_va.reserve(slots);
    forest_.bank.v_reg.reserve(slots);
    forest_.bank.v_cut.reserve(slots);
    forest_.bank.load.reserve(slots);
  }

  // The caller adds the slot's entry to the bank.
  std::uint32_t new_edge(std::uint32_t parent, double copper_ohm, double fixed_ohm) {
    forest_.parent.push_back(parent);
    forest_.copper_ohm.push_back(copper_ohm);
    forest_.fixed_ohm.push_back(fixed_ohm);
    return static_cast<std::uint32_t>(forest_.parent.size() - 1);
  }

  void add_load(std::uint32_t load, std::uint32_t slot) {
    forest_.bank.add(network_.loads[load], load);
    forest_.slot_of_load[load] = slot;
  }

  void reach(std::uint32_t node, std::uint32_t slot, std::int8_t sign) {
    forest_.slot_of_node[node] = slot;
    forest_.sign_of_node[node] = sign;
    queue_.push_back({node, slot});
    const std::uint32_t first = loads_.begin[node];
    if (first == loads_.begin[node + 1]) {
      forest_.bank.add_empty();
    } else {
      add_load(loads_.items[first], slot);
    }
  }

  void lay_block(const std::vector<std::uint32_t>& parts) {
    Forest::Block block;
    block.special_first = static_cast<std::uint32_t>(forest_.bank.special.size());
    const auto ground = static_cast<std::uint32_t>(forest_.parent.size());
    block.first = new_edge(ground, 0, 0);
    forest_.bank.add_empty();
    queue_.clear();
    lay_heads(parts, ground);
    block.head_end = static_cast<std::uint32_t>(forest_.parent.size());
    for (std::size_t i = 0; i < queue_.size(); ++i) {
      const std::uint32_t node = queue_[i].node;
      block.most_loads_at_node = std::max(block.most_loads_at_node, loads_.begin[node + 1] - loads_.begin[node]);
      grow(queue_[i]);
    }
    block.last = static_cast<std::uint32_t>(forest_.parent.size());
    block.special_last = static_cast<std::uint32_t>(forest_.bank.special.size());
    const LoadBank& bank = forest_.bank;
    block.convex = block.special_first == block.special_last;
    for (std::uint32_t k = block.first; k < block.last; ++k) {
      block.convex = block.convex && bank.v_reg[k] >= bank.v_cut[k] + cut_off_band_v;
    }
    forest_.blocks.push_back(block);
  }

  void lay_heads(const std::vector<std::uint32_t>& parts, std::uint32_t ground) {
    std::vector<std::uint32_t> feed(parts.size(), ground);
    for (std::size_t i = 0; i < parts.size(); ++i) {
      const Part& part = partition_.parts[parts[i]];
      if (part.output_end - part.output_begin < 2) continue;
      const Output& first = network_.outputs[partition_.outputs[part.output_begin]];
      feed[i] = new_edge(ground, 0, network_.transformers[first.transformer].r_shared_ohm);
      forest_.bank.add_empty();
    }
    for (std::size_t i = 0; i < parts.size(); ++i) {
      const Part& part = partition_.parts[parts[i]];
      for (std::uint32_t at = part.output_begin; at < part.output_end; ++at) {
        const std::uint32_t o = partition_.outputs[at];
        const Output& output = network_.outputs[o];
        // A lone output sees the shared winding as its own.
        const double shared = feed[i] == ground ? network_.transformers[output.transformer].r_shared_ohm : 0.0;
        const std::uint32_t slot = new_edge(feed[i], 0, output.r_own_ohm + shared);
        forest_.slot_of_output[o] = slot;
        forest_.heads.push_back({slot, o});
        reach(output.node, slot, 1);
      }
    }
  }

  void grow(Reached at) {
    for (std::uint32_t i = loads_.begin[at.node] + 1; i < loads_.begin[at.node + 1]; ++i) {
      add_load(loads_.items[i], new_edge(at.slot, 0, 0));
    }
    for (std::uint32_t i = segments_.begin[at.node]; i < segments_.begin[at.node + 1]; ++i) {
      const std::uint32_t s = segments_.items[i];
      const Segment& segment = network_.segments[s];
      const std::uint32_t next = segment.from == at.node ? segment.to : segment.from;
      if (forest_.slot_of_node[next] != nothing) continue;
      const std::uint32_t slot =
          new_edge(at.slot, segment.copper_a_ohm + segment.copper_b_ohm, segment.contact_a_ohm + segment.contact_b_ohm);
      forest_.segment_child[s] = slot;
      const std::int8_t sign = forest_.sign_of_node[at.node];
      reach(next, slot, static_cast<std::int8_t>(segment.crossed ? -sign : sign));
    }
  }

  const Network& network_;
  const Partition& partition_;
  ByNode segments_;
  ByNode loads_;
  Forest forest_;
  std::vector<Reached> queue_;
};

}  // namespace

Forest build_forest(const Network& network, const Partition& partition) { return Builder(network, partition).build(); }

}  // namespace duskwire::electrical
