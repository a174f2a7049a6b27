// SPDX-License-Identifier: Apache-2.0
#include "electrical/partition.hpp"

#include <gtest/gtest.h>

#include "electrical/nets.hpp"

namespace duskwire::electrical {
namespace {

PartShape shape_of_node(const Network& network, std::uint32_t node) {
  const Partition parts = partition(network);
  return parts.parts[parts.part_of_node[node]].shape;
}

TEST(Partition, ChainIsATree) { EXPECT_EQ(shape_of_node(test::chain(4, 4, 0.1, 12), 4), PartShape::tree); }

TEST(Partition, LoopIsAMesh) {
  Network network = test::chain(4, 4, 0.1, 12);
  network.segments.push_back(test::segment(4, 0, 0.1));
  EXPECT_EQ(shape_of_node(network, 2), PartShape::mesh);
}

TEST(Partition, LoopThroughAHalfOpenCableIsStillAMesh) {
  Network network = test::chain(4, 4, 0.1, 12);
  network.segments.push_back(test::segment(4, 0, 0.1));
  network.segments.back().open_b = true;
  EXPECT_EQ(shape_of_node(network, 2), PartShape::mesh);
  network.segments.back().open_a = true;
  EXPECT_EQ(shape_of_node(network, 2), PartShape::tree);
}

TEST(Partition, IslandIsDead) {
  Network network = test::chain(4, 4, 0.1, 12);
  network.segments[2].open_a = network.segments[2].open_b = true;
  EXPECT_EQ(shape_of_node(network, 4), PartShape::dead);
  EXPECT_EQ(shape_of_node(network, 2), PartShape::tree);
}

TEST(Partition, BridgeMakesAMesh) {
  Network network = test::chain(4, 4, 0.1, 12);
  network.bridges.push_back({{2, Conductor::a}, {2, Conductor::b}, 0.5});
  EXPECT_EQ(shape_of_node(network, 2), PartShape::mesh);
}

TEST(Partition, OutputsOfOneTransformerShareAPartOnlyThroughASharedWinding) {
  Network network;
  network.node_count = 2;
  network.transformers.push_back({});
  network.outputs.push_back({0, 0, 12, 0.02, 25});
  network.outputs.push_back({1, 0, 12, 0.02, 25});
  EXPECT_EQ(partition(network).parts.size(), 2u);
  network.transformers[0].r_shared_ohm = 0.01;
  EXPECT_EQ(partition(network).parts.size(), 1u);
  EXPECT_EQ(shape_of_node(network, 0), PartShape::tree);
}

TEST(Partition, LampAcrossTwoOutputsIsAMesh) {
  Network network;
  network.node_count = 2;
  network.transformers.push_back({});
  network.outputs.push_back({0, 0, 12, 0.02, 25});
  network.outputs.push_back({1, 0, 12, 0.02, 25});
  network.loads.push_back(test::led(0, 4));
  network.loads.back().minus.node = 1;
  EXPECT_EQ(shape_of_node(network, 0), PartShape::mesh);
}

TEST(Partition, EmptyNetworkHasNoParts) { EXPECT_TRUE(partition(Network{}).parts.empty()); }

}  // namespace
}  // namespace duskwire::electrical
