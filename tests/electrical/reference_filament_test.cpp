// SPDX-License-Identifier: Apache-2.0
// Filament lamps against tests/reference/filament.csv: how light, power and current follow the volts. The exponents of
// life, colour and of tungsten halogen's light are not in the engine and not in the table.
#include <gtest/gtest.h>

#include "electrical/loads.hpp"
#include "reference_rows.hpp"

namespace duskwire::electrical {
namespace {

TEST(ReferenceFilament, LightPowerAndCurrentFollowTheirExponents) {
  int rows = 0;
  for (const ReferenceRow& row : reference_rows("filament.csv")) {
    const double v = row.number("voltage_v");
    Load load;
    load.kind = LoadKind::filament;
    load.rated_v = row.number("rated_v");
    load.power_va = 20;
    const double rated_a = load.power_va / load.rated_v;
    const double current_a = load_point(load, load.power_va, v).current_a;
    const double tolerance = row.number("tol_abs");
    EXPECT_NEAR(load_light(load, 1, v), row.number("light_share"), tolerance) << v;
    EXPECT_NEAR(current_a / rated_a, row.number("current_share"), tolerance) << v;
    EXPECT_NEAR(current_a * v / load.power_va, row.number("power_share"), tolerance) << v;
    ++rows;
  }
  EXPECT_EQ(rows, 5);
}

}  // namespace
}  // namespace duskwire::electrical
