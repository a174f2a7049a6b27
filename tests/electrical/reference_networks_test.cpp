// SPDX-License-Identifier: Apache-2.0
// Every row of tests/reference/networks.csv: networks with closed-form or fixed-point answers.
#include <gtest/gtest.h>

#include <cmath>

#include "electrical/nets.hpp"
#include "electrical/solver.hpp"
#include "reference_rows.hpp"

namespace duskwire::electrical {
namespace {

// The models of the table know no range of regulation: it is set far below every answer.
constexpr double low_regulation_v = 1;

Load load_of(const ReferenceRow& row, std::uint32_t node) {
  const std::string& model = row.text("load_model");
  Load load;
  load.plus = {node, Conductor::a};
  load.minus = {node, Conductor::b};
  load.rated_v = row.number("v_source");
  load.v_regulation_min = low_regulation_v;
  if (model == "constant_current") {
    load.kind = LoadKind::constant_current_led;
    load.power_va = row.number("load_value") * load.rated_v;
  } else if (model == "constant_resistance") {
    load.kind = LoadKind::resistive;
    load.power_va = load.rated_v * load.rated_v / row.number("load_value");
  } else if (model == "constant_power") {
    load.kind = LoadKind::regulated_led;
    load.power_va = row.number("load_value");
  } else {
    throw std::runtime_error("unknown load model " + model);
  }
  return load;
}

// Node 0 is the source, node k the k-th load of the table.
Network network_of(const ReferenceRow& row) {
  const auto segments = static_cast<std::uint32_t>(row.number("segments"));
  const bool ring = row.text("topology") == "ring (both ends at source)";
  if (!ring && row.text("topology") != "chain" && row.text("topology") != "single load") {
    throw std::runtime_error("unknown topology " + row.text("topology"));
  }
  Network network;
  network.node_count = ring ? segments : segments + 1;
  network.transformers.push_back({});
  network.outputs.push_back({0, 0, row.number("v_source"), row.number("r_source_ohm"), 0});
  for (std::uint32_t k = 1; k <= segments; ++k) {
    const std::uint32_t node = k % network.node_count;
    network.segments.push_back(test::segment(k - 1, node, row.number("r_segment_loop_ohm")));
    if (node != 0) network.loads.push_back(load_of(row, node));
  }
  return network;
}

double wire_loss_w(const Network& network, const Solution& solution) {
  double loss_w = 0;
  for (std::size_t i = 0; i < network.segments.size(); ++i) {
    const Segment& segment = network.segments[i];
    loss_w += segment.copper_a_ohm * solution.segment_a_a[i] * solution.segment_a_a[i] +
              segment.copper_b_ohm * solution.segment_b_a[i] * solution.segment_b_a[i];
  }
  return loss_w;
}

void expect_no_regulated_solution(const Solution& solution) {
  EXPECT_NE(solution.load_state[0], LampState::regulated);
  EXPECT_LT(solution.load_v[0], low_regulation_v);
  EXPECT_LT(solution.load_light[0], 0.5);
}

TEST(ReferenceNetworks, EveryRowComesOut) {
  for (const ReferenceRow& row : reference_rows("networks.csv")) {
    SCOPED_TRACE(row.text("id"));
    const Network network = network_of(row);
    const Solution solution = test::must_solve(network);
    EXPECT_TRUE(solution.converged);
    const std::string& quantity = row.text("quantity");
    if (quantity == "voltage") {
      const auto node = static_cast<std::size_t>(row.number("node"));
      EXPECT_NEAR(solution.node_v.at(node), row.number("expected"), row.number("tol_abs"));
    } else if (quantity == "wire_loss") {
      EXPECT_NEAR(wire_loss_w(network, solution), row.number("expected"), row.number("tol_abs"));
    } else {
      ASSERT_EQ(quantity, "solution");
      expect_no_regulated_solution(solution);
    }
  }
}

// The lamps of a row that has an answer are all inside their regulation: the table's models apply.
TEST(ReferenceNetworks, LampsOfRowsWithAnAnswerAreRegulated) {
  for (const ReferenceRow& row : reference_rows("networks.csv")) {
    if (row.text("quantity") == "solution") continue;
    for (const LampState state : test::must_solve(network_of(row)).load_state) {
      EXPECT_EQ(state, LampState::regulated) << row.text("id");
    }
  }
}

}  // namespace
}  // namespace duskwire::electrical
