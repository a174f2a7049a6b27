// SPDX-License-Identifier: Apache-2.0
// Published worked examples of voltage drop, tests/reference/worked_examples.csv, each through the solver or through
// the conversions and the copper of the engine. One printed answer contradicts its own figures and is kept apart.
#include <gtest/gtest.h>

#include <set>

#include "base/units.hpp"
#include "electrical/conductor.hpp"
#include "electrical/solver.hpp"
#include "reference_rows.hpp"

namespace duskwire::electrical {
namespace {

double length_m(const ReferenceRow& row) {
  return row.number("length") * (row.text("length_unit") == "ft" ? units::m_per_ft : 1.0);
}

double area_mm2(const ReferenceRow& row) {
  return row.number("area") * (row.text("area_unit") == "cmil" ? units::mm2_per_cmil : 1.0);
}

// As ohm mm2 per metre.
double resistivity(const ReferenceRow& row) {
  const double value = row.number("resistivity");
  return row.text("resistivity_unit") == "ohm_cmil_per_ft" ? value * units::mm2_per_cmil / units::m_per_ft : value;
}

double ohm_of_one_wire(const ReferenceRow& row) {
  const std::string& unit = row.text("resistivity_unit");
  if (unit == "ohm_per_ft") return row.number("resistivity") / units::m_per_ft * length_m(row);
  if (unit == "ohm_per_m") return row.number("resistivity") * length_m(row);
  return resistivity(row) / area_mm2(row) * length_m(row);
}

// Source at node 0, one load at node 1; with one wire the return has no resistance.
Network one_load(const ReferenceRow& row) {
  Network network;
  network.node_count = 2;
  network.transformers.push_back({});
  network.outputs.push_back({0, 0, row.number("source_v"), 0, 0});
  Segment segment;
  segment.from = 0;
  segment.to = 1;
  segment.copper_a_ohm = ohm_of_one_wire(row);
  segment.copper_b_ohm = row.number("wires") == 2 ? segment.copper_a_ohm : 0;
  network.segments.push_back(segment);
  Load load;
  load.plus = {1, Conductor::a};
  load.minus = {1, Conductor::b};
  load.rated_v = row.number("source_v");
  load.v_regulation_min = 1;
  if (row.has("load_ohm")) {
    load.kind = LoadKind::resistive;
    load.power_va = load.rated_v * load.rated_v / row.number("load_ohm");
    network.loads.push_back(load);
  } else if (row.has("current_a")) {
    load.kind = LoadKind::constant_current_led;
    load.power_va = load.rated_v * row.number("current_a");
    network.loads.push_back(load);
  }
  return network;
}

double drop_v(const ReferenceRow& row) {
  const Solution solution = solve(one_load(row)).value();
  return solution.node_v[0] - solution.node_v[1];
}

double load_v(const ReferenceRow& row) {
  Condition condition;
  condition.copper_factor = row.number("copper_factor");
  return solve(one_load(row), condition).value().load_v[0];
}

double short_circuit_a(const ReferenceRow& row) {
  const auto prepared = prepare(one_load(row)).value();
  const auto workspace = make_workspace(*prepared);
  return short_circuit(*prepared, {}, *workspace).node_a[1];
}

double answer(const ReferenceRow& row) {
  const std::string& method = row.text("method");
  if (method == "drop" || method == "misprint") return drop_v(row);
  if (method == "load_voltage") return load_v(row);
  if (method == "wire_voltage") return (row.number("source_v") - load_v(row)) / 2;
  if (method == "short") return short_circuit_a(row);
  if (method == "resistance") return row.number("wires") * ohm_of_one_wire(row);
  if (method == "area") {
    return resistivity(row) * length_m(row) * row.number("current_a") / row.number("source_v") / units::mm2_per_cmil;
  }
  if (method == "area_for_ohm") return resistivity(row) * length_m(row) / row.number("load_ohm") / units::mm2_per_cmil;
  if (method == "temperature_length") {
    return row.number("length") / copper_temperature_factor(row.number("temperature_c"));
  }
  throw std::runtime_error("unknown method " + method);
}

TEST(ReferenceExamples, PublishedAnswersComeOut) {
  std::set<std::string> examples;
  for (const ReferenceRow& row : reference_rows("worked_examples.csv")) {
    if (row.text("method") == "misprint") continue;
    SCOPED_TRACE(row.text("id"));
    EXPECT_NEAR(answer(row), row.number("published"), row.number("tol_abs"));
    examples.insert(row.text("id"));
  }
  EXPECT_EQ(examples.size(), 21u);
}

TEST(ReferenceExamples, TheMisprintContradictsItsOwnFigures) {
  int rows = 0;
  for (const ReferenceRow& row : reference_rows("worked_examples.csv")) {
    if (row.text("method") != "misprint") continue;
    EXPECT_NEAR(answer(row), 0.4914, 1e-9);
    EXPECT_GT(std::abs(answer(row) - row.number("published")), row.number("tol_abs"));
    ++rows;
  }
  EXPECT_EQ(rows, 1);
}

// The constants K that the examples use are copper at some temperature: 10.75 near 30 C, 12.9 stranded near 75 C
// (stranded 2 % over solid). ohm cmil/ft.
TEST(ReferenceExamples, ConstantsOfTheTradeAreTheEnginesCopperWhenWarm) {
  const double at_20c = copper_ohm_mm2_per_m_20c / units::mm2_per_cmil * units::m_per_ft;
  EXPECT_NEAR(at_20c, 10.371, 0.0006);
  EXPECT_NEAR(at_20c * copper_temperature_factor(30), 10.75, 0.04);
  EXPECT_NEAR(at_20c * copper_temperature_factor(75) * 1.02, 12.9, 0.05);
}

// E8 and E9 end in a gauge: the thinnest that is no thinner than the answer.
TEST(ReferenceExamples, MarineExamplesEndIn12And16Awg) {
  EXPECT_GE(units::area_mm2_from_awg(12) / units::mm2_per_cmil, 6271);
  EXPECT_LT(units::area_mm2_from_awg(14) / units::mm2_per_cmil, 6271);
  EXPECT_GE(units::area_mm2_from_awg(16) / units::mm2_per_cmil, 2352);
  EXPECT_LT(units::area_mm2_from_awg(18) / units::mm2_per_cmil, 2352);
}

}  // namespace
}  // namespace duskwire::electrical
