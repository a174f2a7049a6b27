// SPDX-License-Identifier: Apache-2.0
// The yardstick itself: what the mixed-integer program says a wiring costs is what that wiring costs as a job, to the
// cent; and one lamp as reckoned by hand.
#include "sites/optimum.hpp"

#include <gtest/gtest.h>

#include "sites/lots.hpp"
#include "sites/stock.hpp"
#include "sites/wiring_sketch.hpp"
#include "study/check.hpp"

namespace duskwire::sites {
namespace {

const estimate::InstallRates rates;

OptimumOptions within(double seconds) {
  OptimumOptions options;
  options.seconds = seconds;
  return options;
}

TEST(Optimum, CostsWhatItsOwnWiringCostsAsAJob) {
  for (const std::uint32_t lamps : {1U, 2U, 3U, 4U}) {
    for (std::uint64_t seed = 2; seed <= 3; ++seed) {
      SCOPED_TRACE(testing::Message() << lamps << " lamps, seed " << seed);
      const job::Job site = open_lawn({lamps, seed}, stock());
      const auto best = optimum(site, stock(), rates, within(60));
      ASSERT_TRUE(best.has_value()) << "Is CBC installed (Debian: coinor-cbc)?";
      EXPECT_TRUE(best->proven);
      EXPECT_LE(best->bound_minor, best->cost_minor + 1e-6);
      ASSERT_TRUE(best->job.has_value());
      EXPECT_NEAR(best->cost_minor, plain_cost_minor(*best->job, stock(), rates), 1.0);
      const study::Report report = study::check(*best->job, us_rules(), stock(), {.cures = false});
      for (const study::LampReport& lamp : report.lamps) EXPECT_NE(lamp.output, "") << lamp.id;
    }
  }
}

// One lamp, d metres away, one cable of the thinnest gauge from the output into the lamp: trench, cable with 1.0 m and
// 0.6 m of slack and 10 % of waste, laying, staples, one tag, the smallest transformer. Prices:
// data/catalogue/stock.json.
TEST(Optimum, IsForOneLampWhatAHandReckons) {
  const job::Job site = open_lawn({1, 2}, stock());
  const geometry::Point3 lamp = *site.luminaires[0].position;
  const double d_m = geometry::distance_m(*site.transformers[0].position, {lamp.x_m, lamp.y_m});
  const double minor_per_min = 4000 / 60.0;
  const double trench = d_m * 60 / 9 * minor_per_min;
  const double cable = (d_m + 1.6) * 1.1 * 55 + d_m * minor_per_min;
  const double staples = d_m / 3 * (15 + 0.3 * minor_per_min);
  const double tag = 60 + 0.5 * minor_per_min;
  const double transformer = 13000 + 60 * minor_per_min;
  const auto best = optimum(site, stock(), rates, within(60));
  ASSERT_TRUE(best.has_value());
  EXPECT_NEAR(best->cost_minor, trench + cable + staples + tag + transformer, 0.1);
}

}  // namespace
}  // namespace duskwire::sites
