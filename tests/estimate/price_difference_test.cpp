// SPDX-License-Identifier: Apache-2.0
#include "estimate/price_difference.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "estimate/jobs.hpp"
#include "estimate/priced_jobs.hpp"

namespace duskwire::estimate {
namespace {

std::string reason(const PriceDifference& difference, const std::string& id) {
  for (const LineDifference& line : difference.lines) {
    if (line.id == id) return line.reason;
  }
  return "";
}

TEST(PriceDifference, OneLightLessIsToldLineByLine) {
  const job::Job before = tests::offered_garden();
  job::Job after = before;
  after.luminaires.pop_back();  // F8, the wash, and its lead of 10 m
  after.cables.pop_back();
  const PriceDifference moved = price_difference(price(before, {}), price(after, {}));
  EXPECT_EQ(reason(moved, "luminaire/wash-9va"), "wash-9va: no longer in it: -176.00.");
  EXPECT_EQ(reason(moved, "work/fixtures"), "Setting the lights: 0.50 h less than before, now 3.50 h: -42.50.");
  EXPECT_EQ(reason(moved, "cable/14awg-2"), "14awg-2: 12 m less than before, now 59 m: -21.12.");
  EXPECT_EQ(moved.lines.front().id, "luminaire/wash-9va");
  EXPECT_TRUE(moved.summary.starts_with("The price went down by ")) << moved.summary;
}

TEST(PriceDifference, ADearerHourIsNotCalledMoreWork) {
  const job::Job before = tests::offered_garden();
  job::Job after = before;
  after.offer->rates.labour_price_minor_per_h = 9000;
  const PriceDifference moved = price_difference(price(before, {}), price(after, {}));
  EXPECT_EQ(reason(moved, "work/fixtures"), "Setting the lights: the price of it went up: +20.00.");
  EXPECT_EQ(reason(moved, "luminaire/wash-9va"), "");
}

TEST(PriceDifference, ALineThatIsNewIsCalledNew) {
  job::Job after = tests::offered_garden();
  after.offer->extras = {{"outlet", "Electrician: outlet", 42000, 38000, {}}};
  const PriceDifference moved = price_difference(price(tests::offered_garden(), {}), price(after, {}));
  ASSERT_EQ(moved.lines.size(), 1u);
  EXPECT_EQ(moved.lines[0].reason, "Electrician: outlet: new: +420.00.");
  EXPECT_EQ(moved.summary, "The price went up by 420.00 to 3894.67 USD.");
}

TEST(PriceDifference, LengthsAreInTheUnitsOfTheJob) {
  const Price before = price(tests::offered_garden(), {});
  Price after = before;
  for (PriceLine& line : after.lines) {
    if (line.id != "cable/14awg-2") continue;
    line.quantity += 30.48;  // 100 ft
    line.price_minor += 100;
  }
  const PriceDifference moved = price_difference(before, after, job::DisplayUnits::us);
  EXPECT_EQ(moved.lines.at(0).reason, "14awg-2: 100 ft more than before, now 333 ft: +1.00.");
}

TEST(PriceDifference, TheSamePriceHasNotMoved) {
  const Price same = price(tests::offered_garden(), {});
  const PriceDifference moved = price_difference(same, same);
  EXPECT_TRUE(moved.lines.empty());
  EXPECT_EQ(moved.summary, "The price has not moved: 3474.67 USD.");
}

TEST(PriceDifference, CurrenciesAreNotMixed) {
  job::Job euro = tests::offered_garden();
  euro.site.currency = "EUR";
  const PriceDifference moved = price_difference(price(tests::offered_garden(), {}), price(euro, {}));
  EXPECT_TRUE(moved.lines.empty());
  EXPECT_TRUE(has_errors(moved.problems));
}

TEST(PriceDifference, LinesAddUpToTheMoveBetweenAnyTwoJobs) {
  for (std::uint32_t seed = 0; seed < 500; ++seed) {
    const auto& prices = tests::prices_of_random_jobs();
    const PriceDifference moved = price_difference(prices[seed], prices[seed + 1]);
    std::int64_t sum_minor = 0;
    for (const LineDifference& line : moved.lines) {
      sum_minor += line.moved_minor;
      EXPECT_TRUE(line.reason.ends_with(".")) << line.reason;
    }
    EXPECT_EQ(sum_minor, moved.moved_minor) << seed;
  }
}

}  // namespace
}  // namespace duskwire::estimate
