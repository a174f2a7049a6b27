// SPDX-License-Identifier: Apache-2.0
#include "garden.hpp"

#include <algorithm>

#include "base/units.hpp"
#include "electrical/conductor.hpp"

namespace duskwire::bench {
namespace {

constexpr std::uint32_t lamps_per_source = chains_per_source * lamps_per_chain;

// Lamps in chain `chain` of a source that feeds `lamps`.
std::uint32_t chain_length(std::uint32_t lamps, std::uint32_t chain) {
  return std::min(lamps_per_chain, lamps > chain * lamps_per_chain ? lamps - chain * lamps_per_chain : 0);
}

double conductor_ohm() { return span_m * electrical::copper_ohm_per_m_20c(units::area_mm2_from_awg(12)); }

electrical::Load lamp(std::uint32_t node) {
  electrical::Load load;
  load.plus = {node, electrical::Conductor::a};
  load.minus = {node, electrical::Conductor::b};
  load.power_va = lamp_va;
  load.v_cut_off = lamp_cut_off_v;
  load.v_regulation_min = lamp_regulation_v;
  load.v_max = source_v;
  return load;
}

void add_source(electrical::Network& network, std::uint32_t lamps) {
  const std::uint32_t terminals = network.node_count++;
  const auto transformer = static_cast<std::uint32_t>(network.transformers.size());
  network.transformers.push_back({});
  network.outputs.push_back(
      {.node = terminals, .transformer = transformer, .emf_v = source_v, .r_own_ohm = source_ohm, .limit_a = 25});
  for (std::uint32_t chain = 0; chain < chains_per_source; ++chain) {
    std::uint32_t from = terminals;
    for (std::uint32_t i = 0; i < chain_length(lamps, chain); ++i) {
      electrical::Segment segment;
      segment.from = from;
      segment.to = from = network.node_count++;
      segment.copper_a_ohm = segment.copper_b_ohm = conductor_ohm();
      network.segments.push_back(segment);
      network.loads.push_back(lamp(from));
    }
  }
}

// Slots of one source, level by level: the k-th lamps of all chains stand together.
void add_tree(ReducedGarden& garden, std::uint32_t lamps, std::uint32_t first_node) {
  const auto root = static_cast<std::uint32_t>(garden.parent.size());
  const auto add = [&](std::uint32_t parent, double ohm, double va, std::uint32_t node) {
    garden.parent.push_back(parent);
    garden.r_ohm.push_back(ohm);
    garden.s_va.push_back(va);
    garden.v_regulation.push_back(lamp_regulation_v);
    garden.node.push_back(node);
  };
  garden.tree_first.push_back(root);
  add(root, source_ohm, 0, first_node);
  std::uint32_t last_of_chain[chains_per_source] = {root, root, root};
  for (std::uint32_t i = 0; i < lamps_per_chain; ++i) {
    for (std::uint32_t chain = 0; chain < chains_per_source; ++chain) {
      if (i >= chain_length(lamps, chain)) continue;
      const auto slot = static_cast<std::uint32_t>(garden.parent.size());
      add(last_of_chain[chain], 2 * conductor_ohm(), lamp_va, first_node + 1 + chain * lamps_per_chain + i);
      last_of_chain[chain] = slot;
    }
  }
}

template <class Add>
void for_each_source(std::uint32_t lamps, const Add& add) {
  for (std::uint32_t done = 0; done < lamps; done += lamps_per_source) add(std::min(lamps - done, lamps_per_source));
}

}  // namespace

electrical::Network garden_network(std::uint32_t lamps) {
  electrical::Network network;
  for_each_source(lamps, [&](std::uint32_t count) { add_source(network, count); });
  return network;
}

ReducedGarden reduced_garden(std::uint32_t lamps) {
  ReducedGarden garden;
  std::uint32_t first_node = 0;
  for_each_source(lamps, [&](std::uint32_t count) {
    add_tree(garden, count, first_node);
    first_node += count + 1;
  });
  garden.tree_first.push_back(static_cast<std::uint32_t>(garden.parent.size()));
  return garden;
}

}  // namespace duskwire::bench
