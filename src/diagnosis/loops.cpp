// SPDX-License-Identifier: Apache-2.0
#include "diagnosis/loops.hpp"

#include <cstdint>
#include <numeric>

namespace duskwire::diagnosis {

// A segment is on a loop if its ends stay joined without it, outputs of one winding apart. Ends: bridges of the graph,
// found by removing one segment at a time, which is quick enough for gardens (n x m of a few hundred each).
std::vector<bool> segments_on_loops(const electrical::Network& network) {
  std::vector<bool> result(network.segments.size(), false);
  std::vector<std::uint32_t> root(network.node_count);
  const auto find = [&](std::uint32_t x) {
    while (root[x] != x) x = root[x] = root[root[x]];
    return x;
  };
  for (std::size_t skipped = 0; skipped < network.segments.size(); ++skipped) {
    std::iota(root.begin(), root.end(), 0U);
    for (std::size_t s = 0; s < network.segments.size(); ++s) {
      const electrical::Segment& segment = network.segments[s];
      if (s != skipped && !(segment.open_a && segment.open_b)) root[find(segment.from)] = find(segment.to);
    }
    result[skipped] = find(network.segments[skipped].from) == find(network.segments[skipped].to);
  }
  return result;
}

}  // namespace duskwire::diagnosis
