// SPDX-License-Identifier: Apache-2.0
// The band of the acceptance example: two to four lights at scary steps, two or three at a tree of 7.3 m, at 150 to 400
// USD each (quotes seen in public: docs/algorithms/price.md).
#include "study/price_band.hpp"

#include <gtest/gtest.h>

#include <algorithm>

namespace duskwire::study {
namespace {

FirstLookRequest front_steps() {
  FirstLookRequest request;
  request.known = {"door", 410};
  request.known_m = 2.03;
  request.things = {{"tree", 1480}};
  request.note = "front steps are scary, I love the tree, bedroom is above the porch";
  return request;
}

bool tells(const std::vector<std::string>& sentences, const char* word) {
  return std::any_of(sentences.begin(), sentences.end(),
                     [&](const std::string& each) { return each.find(word) != std::string::npos; });
}

TEST(PriceBand, GoesFeatureByFeature) {
  const PriceBand band = price_band(front_steps()).value();
  ASSERT_EQ(band.parts.size(), 2u);
  EXPECT_EQ(band.parts[0].feature, "steps");
  EXPECT_EQ(band.parts[0].low_minor, 2 * 150'00);
  EXPECT_EQ(band.parts[0].high_minor, 4 * 400'00);
  EXPECT_EQ(band.low_minor, 4 * 150'00);
  EXPECT_EQ(band.high_minor, 7 * 400'00);
  EXPECT_EQ(band.usual_minor, 5.5 * 325'00);
  EXPECT_EQ(band.parts[1].reason, "2 to 3 lights at 150 to 400 USD each.");
}

TEST(PriceBand, IsTheOneOfTheFirstLook) {
  const PriceBand band = price_band(front_steps()).value();
  const FirstLook look = first_look(front_steps()).value();
  EXPECT_EQ(band.low_minor, look.price_low_minor);
  EXPECT_EQ(band.high_minor, look.price_high_minor);
}

TEST(PriceBand, SaysWhatMayCostMoreAndWhatWouldNarrowIt) {
  FirstLookRequest request = front_steps();
  EXPECT_TRUE(tells(price_band(request).value().widens, "outlet"));
  EXPECT_TRUE(tells(price_band(request).value().widens, "pool or a pond"));
  EXPECT_TRUE(tells(price_band(request).value().widens, "stone"));
  EXPECT_TRUE(tells(price_band(request).value().narrows, "after dark"));
  request.outlet_known = request.water_known = true;
  EXPECT_FALSE(tells(price_band(request).value().widens, "outlet"));
  EXPECT_FALSE(tells(price_band(request).value().widens, "pool or a pond"));
}

TEST(PriceBand, WithoutAFeatureThereIsNoBand) {
  FirstLookRequest request = front_steps();
  request.note = "";
  EXPECT_TRUE(price_band(request).value().parts.empty());
  EXPECT_EQ(price_band(request).value().high_minor, 0);
  request.known_m = 0;
  EXPECT_FALSE(price_band(request).ok());
}

}  // namespace
}  // namespace duskwire::study
