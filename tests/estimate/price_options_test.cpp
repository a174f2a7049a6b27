// SPDX-License-Identifier: Apache-2.0
#include "estimate/price_options.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "estimate/jobs.hpp"
#include "estimate/priced_jobs.hpp"
#include "estimate/variant.hpp"

namespace duskwire::estimate {
namespace {

job::OfferOption option(const char* id, job::OptionKind kind, std::vector<std::string> luminaires) {
  job::OfferOption made;
  made.id = id;
  made.title = id;
  made.kind = kind;
  made.luminaires = std::move(luminaires);
  return made;
}

const PricedOption& priced(const Price& price, const std::string& id) {
  return *std::find_if(price.options.begin(), price.options.end(),
                       [&](const PricedOption& each) { return each.id == id; });
}

// Base and phases are the whole job, so that their prices add up to it.
TEST(PriceOptions, PhasesAddUpForAThousandJobs) {
  for (std::uint32_t seed = 0; seed < tests::random_jobs; ++seed) {
    const Price& whole = tests::prices_of_random_jobs()[seed];
    ASSERT_EQ(whole.options.size(), 3u);
    ASSERT_TRUE(whole.base_minor);
    EXPECT_EQ(*whole.base_minor + whole.options[0].adds_minor + whole.options[1].adds_minor, whole.total_minor) << seed;
    EXPECT_EQ(whole.options[1].total_minor, whole.total_minor) << seed;
    EXPECT_EQ(whole.options[2].adds_minor, whole.options[2].total_minor - whole.total_minor) << seed;
  }
}

TEST(PriceOptions, AVariantCostsWhatTheJobWithItsLightsCosts) {
  for (std::uint32_t seed = 0; seed < 100; ++seed) {
    job::Job job = tests::random_offered_job(seed);
    const auto& lights = job.offer->options[2].luminaires;
    if (lights.empty()) continue;
    const std::int64_t total_minor = price(job, {}, tests::with_rules()).options[2].total_minor;
    job = with_luminaires(job, {lights.begin(), lights.end()});
    for (job::Luminaire& luminaire : job.luminaires) {
      if (luminaire.item == "uplight-6va") luminaire.item = "path-3va";
    }
    EXPECT_EQ(price(job, {}, tests::with_rules()).total_minor, total_minor) << seed;
  }
}

TEST(PriceOptions, PartsStandOnTheBaseEachForItself) {
  job::Job job = tests::offered_garden();
  job.offer->options = {option("walk", job::OptionKind::part, {"F5", "F6", "F7"}),
                        option("wall", job::OptionKind::part, {"F8"})};
  job.offer->options[1].chosen = true;
  const Price whole = price(job, {});
  EXPECT_EQ(priced(whole, "walk").adds_minor, priced(whole, "walk").total_minor - *whole.base_minor);
  EXPECT_EQ(priced(whole, "wall").adds_minor, priced(whole, "wall").total_minor - *whole.base_minor);
  EXPECT_EQ(priced(whole, "walk").luminaires.size(), 7u);
  EXPECT_EQ(whole.taken_minor, priced(whole, "wall").total_minor);
  // Both need the trunk to the second hub, so that together they cost less than one by one.
  EXPECT_LT(whole.total_minor - *whole.base_minor, priced(whole, "walk").adds_minor + priced(whole, "wall").adds_minor);
}

// An uplight for a path light: 15.00 less at cost, 24.00 with the mark-up of 60 %.
TEST(PriceOptions, AVariantMayHaveOtherItems) {
  job::Job job = tests::offered_garden();
  job.offer->options = {option("good", job::OptionKind::variant, {})};
  job.offer->options[0].swaps = {{"uplight-6va", "path-3va", {}}};
  const Price whole = price(job, {}, tests::with_rules());
  EXPECT_EQ(whole.options[0].adds_minor, -4 * 2400);
  EXPECT_EQ(whole.options[0].deposit_minor, 33787);  // 10 % of 3378.67
  EXPECT_FALSE(whole.base_minor);
  EXPECT_FALSE(whole.taken_minor);
}

TEST(PriceOptions, NamesThatTheJobDoesNotHaveArePointedAt) {
  job::Job job = tests::offered_garden();
  job.offer->options = {option("more", job::OptionKind::part, {"F5", "F99"})};
  job.offer->options[0].swaps = {{"path-3va", "no-such-lamp", {}}};
  std::vector<std::string> pointers;
  for (const Problem& problem : price(job, {}).problems) pointers.push_back(problem.pointer);
  for (const char* pointer : {"/offer/options/0/luminaires/1", "/offer/options/0/swaps/0/with"}) {
    EXPECT_NE(std::find(pointers.begin(), pointers.end(), pointer), pointers.end()) << pointer;
  }
}

}  // namespace
}  // namespace duskwire::estimate
