// SPDX-License-Identifier: Apache-2.0
// Splits a network into parts that do not influence each other and says of each whether it is a tree. Internal to the
// room.
#pragma once

#include <cstdint>
#include <vector>

#include "electrical/network.hpp"

namespace duskwire::electrical {

inline constexpr std::uint32_t nothing = 0xffffffffu;

enum class PartShape : std::uint8_t {
  dead = 0,  // no output: no volts anywhere
  tree = 1,  // no loop, no bridge, lamps across their node: one loop resistance per segment is exact
  mesh = 2,
};

struct Part {
  PartShape shape = PartShape::dead;
  std::uint32_t node_begin = 0;  // ranges into the index lists below
  std::uint32_t node_end = 0;
  std::uint32_t output_begin = 0;
  std::uint32_t output_end = 0;
};

struct Partition {
  std::vector<Part> parts;
  std::vector<std::uint32_t> nodes;    // grouped by part
  std::vector<std::uint32_t> outputs;  // grouped by part
  std::vector<std::uint32_t> part_of_node;
};

// True for a segment that can carry a lamp's current in a tree: both conductors whole.
[[nodiscard]] inline bool is_whole(const Segment& segment) { return !segment.open_a && !segment.open_b; }
[[nodiscard]] inline bool is_severed(const Segment& segment) { return segment.open_a && segment.open_b; }

// A load that joins the two conductors of one node and so leaves a tree a tree.
[[nodiscard]] inline bool is_across_one_node(Terminal p, Terminal q) {
  return p.node == q.node && p.conductor != q.conductor;
}

[[nodiscard]] Partition partition(const Network& network);

}  // namespace duskwire::electrical
