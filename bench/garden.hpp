// SPDX-License-Identifier: Apache-2.0
// The network of the benchmarks: per source 15 V behind 0.02 ohm and three chains of 20 lamps of 4.2 VA, 4 m of 12 AWG
// before each lamp. Given twice: as a Network for the solver, and reduced to arrays for the methods it is compared with
// (one loop resistance per cable, slots in breadth-first order), so that those carry no burden of generality.
#pragma once

#include <cstdint>
#include <vector>

#include "electrical/network.hpp"

namespace duskwire::bench {

inline constexpr double source_v = 15;
inline constexpr double source_ohm = 0.02;
inline constexpr std::uint32_t chains_per_source = 3;
inline constexpr std::uint32_t lamps_per_chain = 20;
inline constexpr double lamp_va = 4.2;
inline constexpr double lamp_regulation_v = 9;
inline constexpr double lamp_cut_off_v = 6;
inline constexpr double span_m = 4;
// The last source gets what is left; its last chain may be shorter.
[[nodiscard]] electrical::Network garden_network(std::uint32_t lamps);

// Slots parents first, source by source. The slot of a source stands for its terminals: no lamp, its resistance is the
// winding's and its parent is itself.
struct ReducedGarden {
  std::vector<std::uint32_t> parent;
  std::vector<double> r_ohm;
  std::vector<double> s_va;
  std::vector<double> v_regulation;
  std::vector<std::uint32_t> node;        // in the network
  std::vector<std::uint32_t> tree_first;  // first slot of each source, and the count of slots at the end
};
[[nodiscard]] ReducedGarden reduced_garden(std::uint32_t lamps);

}  // namespace duskwire::bench
