// SPDX-License-Identifier: Apache-2.0
#include "estimate/materials.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <tuple>

#include "estimate/jobs.hpp"

namespace duskwire::estimate {
namespace {

constexpr std::uint32_t random_jobs = 300;

const CableTotal& cable_total(const Materials& list, const std::string& item) {
  const auto found =
      std::find_if(list.cables.begin(), list.cables.end(), [&](const CableTotal& total) { return total.item == item; });
  if (found == list.cables.end()) throw std::runtime_error("no cable " + item);
  return *found;
}

double quantity(const Materials& list, const std::string& item) {
  double sum = 0;
  for (const MaterialLine& line : list.lines) sum += line.item == item ? line.quantity : 0;
  return sum;
}

std::int64_t price_of(const Materials& list, const std::vector<Category>& categories) {
  std::int64_t sum_minor = 0;
  for (const MaterialLine& line : list.lines) {
    if (std::find(categories.begin(), categories.end(), line.category) != categories.end())
      sum_minor += line.price_minor;
  }
  return sum_minor;
}

// Acceptance example of the cut list; slack 0.6 m at a fixture, 0.3 m per cable end at a splice, 1.0 m at the
// transformer and 10 % waste are common practice, no source.
TEST(Materials, TwoHubGardenTakes52MetresOf12AwgAnd71Of14Awg) {
  const Materials list = materials(tests::two_hub_garden(), {});
  const CableTotal& trunk = cable_total(list, "12awg-2");
  EXPECT_NEAR(trunk.cut_m, 46.9, 1e-9);
  EXPECT_NEAR(trunk.with_waste_m, 51.59, 1e-9);
  EXPECT_DOUBLE_EQ(trunk.bought_m, 52);
  const CableTotal& leads = cable_total(list, "14awg-2");
  EXPECT_NEAR(leads.cut_m, 64.2, 1e-9);
  EXPECT_NEAR(leads.with_waste_m, 70.62, 1e-9);
  EXPECT_DOUBLE_EQ(leads.bought_m, 71);
  EXPECT_DOUBLE_EQ(quantity(list, "12awg-2"), 52);
  EXPECT_DOUBLE_EQ(quantity(list, "14awg-2"), 71);
  EXPECT_FALSE(has_errors(list.problems));
}

// The same example: all but its 40.00 of sundries is 1225.30.
TEST(Materials, TwoHubGardenCostsItsExampleToTheCent) {
  const Materials list = materials(tests::two_hub_garden(), {});
  EXPECT_EQ(price_of(list, {Category::luminaire, Category::transformer, Category::control, Category::cable,
                            Category::connector}),
            122530);
  EXPECT_DOUBLE_EQ(quantity(list, "gel-6"), 4);
  EXPECT_DOUBLE_EQ(quantity(list, "uplight-6va"), 4);
  EXPECT_DOUBLE_EQ(quantity(list, "stake"), 8);
  EXPECT_DOUBLE_EQ(quantity(list, "tag"), 12);  // T-1, S1 twice and four leads, S2 once and four leads
  EXPECT_DOUBLE_EQ(quantity(list, "staple"), 10 + 5 + 4 * 3 + 3 * 2 + 4);
  EXPECT_EQ(list.price_minor, 122530 + 8 * 200 + 12 * 20 + 37 * 12);
  // 8 lamps, the transformer, 102 m of route, 4 connectors, 57 small pieces
  EXPECT_NEAR(list.labour_min, 8 * 25 + 90 + 102 + 4 * 3 + 57 * 0.5, 1e-9);
}

TEST(Materials, EmptyJobGivesAnEmptyList) {
  const Materials list = materials({}, tests::test_catalogue());
  EXPECT_TRUE(list.lines.empty());
  EXPECT_TRUE(list.cuts.empty());
  EXPECT_TRUE(list.problems.empty());
  EXPECT_EQ(list.price_minor, 0);
  EXPECT_EQ(list.labour_min, 0);
}

TEST(Materials, ItemsThatTheJobLacksComeFromTheStock) {
  job::Job job = tests::two_hub_garden();
  job.catalogue.cables.erase(job.catalogue.cables.begin());
  job.catalogue.sundries.clear();
  const Materials list = materials(job, tests::test_catalogue());
  EXPECT_DOUBLE_EQ(quantity(list, "14awg-2"), 71);
  EXPECT_DOUBLE_EQ(quantity(list, "stake"), 8);
}

TEST(Materials, PricesInAnotherCurrencyAreLeftOutAndSaidSo) {
  job::Job job = tests::two_hub_garden();
  job.catalogue.sundries.clear();
  job::Catalogue stock = tests::test_catalogue();
  stock.currency = "EUR";
  const Materials list = materials(job, stock);
  EXPECT_DOUBLE_EQ(quantity(list, "stake"), 8);
  EXPECT_EQ(price_of(list, {Category::mount, Category::sundry}), 0);
  ASSERT_TRUE(has_errors(list.problems));
  EXPECT_EQ(std::count_if(list.problems.begin(), list.problems.end(),
                          [](const Problem& problem) { return problem.pointer == "/site/currency"; }),
            1);
}

TEST(Materials, PriceBeyond64BitsIsAProblemNotANumber) {
  job::Job job = tests::two_hub_garden();
  job.catalogue.luminaires[0].price_minor = std::int64_t{9'000'000'000'000'000'000};
  const Materials list = materials(job, {});
  EXPECT_TRUE(has_errors(list.problems));
  EXPECT_GE(list.price_minor, 0);
}

TEST(Materials, UnknownItemsArePointedAt) {
  job::Job job = tests::two_hub_garden();
  job.luminaires[2].item = "gone";
  job.transformers[0].item = "gone-too";
  job.transformers[0].controls = {"clock", "no-clock"};
  job.cables[1].item = "no-cable";
  const Materials list = materials(job, {});
  for (const char* pointer :
       {"/luminaires/2/item", "/transformers/0/item", "/transformers/0/controls/1", "/cables/1/item"}) {
    EXPECT_TRUE(std::any_of(list.problems.begin(), list.problems.end(), [&](const Problem& problem) {
      return problem.pointer == pointer;
    })) << pointer;
  }
  EXPECT_DOUBLE_EQ(quantity(list, "uplight-6va"), 3);
}

TEST(Materials, SumOfTheCutListIsTheSumByType) {
  for (std::uint32_t seed = 0; seed < random_jobs; ++seed) {
    const Materials list = materials(tests::random_job(seed), {});
    double cuts_m = 0;
    double totals_m = 0;
    double reels_m = 0;
    double bought_m = 0;
    for (const Cut& cut : list.cuts) cuts_m += cut.cut_m;
    for (const Reel& reel : list.reels) reels_m += reel.length_m;
    for (const CableTotal& total : list.cables) {
      totals_m += total.cut_m;
      bought_m += total.bought_m;
      EXPECT_GE(total.bought_m, total.with_waste_m - 1e-6) << seed;
      EXPECT_LT(total.bought_m, total.with_waste_m + 1) << seed;
    }
    EXPECT_NEAR(cuts_m, totals_m, 1e-6) << seed;
    EXPECT_NEAR(reels_m, bought_m, 1e-6) << seed;
  }
}

TEST(Materials, NothingOnTheListIsNegativeOrUnpriced) {
  for (std::uint32_t seed = 0; seed < random_jobs; ++seed) {
    const Materials list = materials(tests::random_job(seed), {});
    std::int64_t sum_minor = 0;
    for (const MaterialLine& line : list.lines) {
      EXPECT_GT(line.quantity, 0) << seed << ' ' << line.item;
      EXPECT_GT(line.price_minor, 0) << seed << ' ' << line.item;
      EXPECT_GE(line.labour_min, 0) << seed << ' ' << line.item;
      sum_minor += line.price_minor;
    }
    EXPECT_EQ(list.price_minor, sum_minor) << seed;
  }
}

TEST(Materials, DoublingEveryRouteDoublesTheRoutesAndLeavesSlackAndPieces) {
  for (std::uint32_t seed = 0; seed < random_jobs; ++seed) {
    job::Job job = tests::random_job(seed);
    const Materials once = materials(job, {});
    for (job::Cable& cable : job.cables) {
      if (cable.length_m) cable.length_m = 2 * *cable.length_m;
      for (geometry::Point2& point : cable.path) point = {2 * point.x_m, 2 * point.y_m};
    }
    const Materials twice = materials(job, {});
    ASSERT_EQ(once.cables.size(), twice.cables.size()) << seed;
    for (std::size_t i = 0; i < once.cables.size(); ++i) {
      EXPECT_NEAR(twice.cables[i].route_m, 2 * once.cables[i].route_m, 1e-9) << seed;
      EXPECT_NEAR(twice.cables[i].slack_m, once.cables[i].slack_m, 1e-9) << seed;
    }
    for (const char* item : {"gel-3", "gel-6", "tag", "stake", "uplight-6va", "tr-150"}) {
      EXPECT_DOUBLE_EQ(quantity(twice, item), quantity(once, item)) << seed << ' ' << item;
    }
  }
}

// Every object of the job once more under a new id.
job::Job two_of(const job::Job& one) {
  job::Job both = one;
  const auto renamed = [](const std::string& id) { return id.empty() ? id : id + "-again"; };
  for (job::Luminaire luminaire : one.luminaires) {
    luminaire.id = renamed(luminaire.id);
    luminaire.joint = renamed(luminaire.joint);
    both.luminaires.push_back(luminaire);
  }
  for (job::Transformer transformer : one.transformers) {
    transformer.id = renamed(transformer.id);
    for (job::Output& output : transformer.outputs) output.id = renamed(output.id);
    both.transformers.push_back(transformer);
  }
  for (job::Joint joint : one.joints) {
    joint.id = renamed(joint.id);
    both.joints.push_back(joint);
  }
  for (job::Cable cable : one.cables) {
    cable.id = renamed(cable.id);
    cable.from = renamed(cable.from);
    cable.to = renamed(cable.to);
    both.cables.push_back(cable);
  }
  return both;
}

TEST(Materials, TwoEqualGardensTakeTwiceOfAllThatIsCounted) {
  for (std::uint32_t seed = 0; seed < random_jobs; ++seed) {
    const job::Job job = tests::random_job(seed);
    const Materials once = materials(job, {});
    const Materials twice = materials(two_of(job), {});
    ASSERT_EQ(once.lines.size(), twice.lines.size()) << seed;
    EXPECT_EQ(twice.cuts.size(), 2 * once.cuts.size()) << seed;
    for (std::size_t i = 0; i < once.lines.size(); ++i) {
      const bool by_length = once.lines[i].unit == "m";  // rounded up once, not twice
      EXPECT_NEAR(twice.lines[i].quantity, 2 * once.lines[i].quantity, by_length ? 1.0 : 1e-9)
          << seed << ' ' << once.lines[i].item;
    }
    for (std::size_t i = 0; i < once.cables.size(); ++i) {
      EXPECT_NEAR(twice.cables[i].cut_m, 2 * once.cables[i].cut_m, 1e-9) << seed;
    }
  }
}

TEST(Materials, OrderOfTheJobDoesNotMatter) {
  for (std::uint32_t seed = 0; seed < random_jobs; ++seed) {
    job::Job job = tests::random_job(seed);
    const Materials forward = materials(job, {});
    std::reverse(job.cables.begin(), job.cables.end());
    std::reverse(job.luminaires.begin(), job.luminaires.end());
    std::reverse(job.joints.begin(), job.joints.end());
    const Materials backward = materials(job, {});
    ASSERT_EQ(forward.lines.size(), backward.lines.size()) << seed;
    for (std::size_t i = 0; i < forward.lines.size(); ++i) {
      EXPECT_EQ(forward.lines[i].item, backward.lines[i].item) << seed;
      EXPECT_NEAR(forward.lines[i].quantity, backward.lines[i].quantity, 1e-9) << seed;
      EXPECT_EQ(forward.lines[i].price_minor, backward.lines[i].price_minor) << seed;
    }
    ASSERT_EQ(forward.cuts.size(), backward.cuts.size()) << seed;
    for (std::size_t i = 0; i < forward.cuts.size(); ++i) {
      EXPECT_EQ(forward.cuts[i].tag, backward.cuts[i].tag) << seed;
      EXPECT_EQ(forward.cuts[i].running_m, backward.cuts[i].running_m) << seed;
    }
  }
}

TEST(Materials, LinesStandByCategoryThenItem) {
  for (std::uint32_t seed = 0; seed < random_jobs; ++seed) {
    const Materials list = materials(tests::random_job(seed), {});
    EXPECT_TRUE(std::is_sorted(list.lines.begin(), list.lines.end(), [](const auto& p, const auto& q) {
      return std::tie(p.category, p.item) < std::tie(q.category, q.item);
    })) << seed;
  }
}

}  // namespace
}  // namespace duskwire::estimate
