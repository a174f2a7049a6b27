// SPDX-License-Identifier: Apache-2.0
#include "formats/offer_rates.hpp"

#include <gtest/gtest.h>

namespace duskwire::formats {
namespace {

std::optional<std::int64_t> cost_in(const char* offer) {
  job::Job job;
  job.offer.json = offer;
  return offered_labour_minor_per_h(job);
}

TEST(OfferRates, TheHoursCostIsTheOffers) {
  EXPECT_EQ(cost_in(R"({"rates": {"labour_cost_minor_per_h": 3800, "labour_price_minor_per_h": 8500}})"), 3800);
}

TEST(OfferRates, AnOfferThatDoesNotSayGivesNone) {
  for (const char* offer : {"", "{}", R"({"rates": {"labour_price_minor_per_h": 8500}})", "[]", "{",
                            R"({"rates": {"labour_cost_minor_per_h": -1}})"}) {
    EXPECT_FALSE(cost_in(offer)) << offer;
  }
}

}  // namespace
}  // namespace duskwire::formats
