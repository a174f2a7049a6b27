// SPDX-License-Identifier: Apache-2.0
#include "estimate/labour_rates.hpp"

#include <gtest/gtest.h>

namespace duskwire::estimate {
namespace {

TEST(LabourRates, WithoutAnOfferTheyAreTheTradesOwn) { EXPECT_EQ(install_rates({}), InstallRates{}); }

TEST(LabourRates, TheOffersHourAndGroundStandInTheirPlace) {
  job::Job job;
  job.offer.emplace().rates.labour_cost_minor_per_h = 3800;
  job.offer->rates.trenches = {{job::GroundKind::lawn, 9, {}}};
  InstallRates expected;
  expected.labour_minor_per_h = 3800;
  expected.trench_min_per_m[1] = 9;  // lawn
  EXPECT_EQ(install_rates(job), expected);
}

TEST(LabourRates, AnOfferThatDoesNotSayChangesNothing) {
  job::Job job;
  job.offer.emplace().rates.labour_price_minor_per_h = 8500;
  EXPECT_EQ(install_rates(job), InstallRates{});
}

}  // namespace
}  // namespace duskwire::estimate
