// SPDX-License-Identifier: Apache-2.0
// What the contractor holds fast stays as it is: properties over seeded gardens that are wired once and then asked
// again.
#include <gtest/gtest.h>

#include <algorithm>
#include <limits>
#include <map>
#include <set>

#include "estimate/joint_wires.hpp"
#include "geometry/polygon.hpp"
#include "sanitizers.hpp"
#include "sites/lots.hpp"
#include "sites/planned.hpp"
#include "sites/stock.hpp"
#include "study/check.hpp"
#include "wiring/dice.hpp"

namespace duskwire::study {
namespace {

using geometry::Point2;

#ifdef DUSKWIRE_UNDER_SANITIZERS
constexpr std::uint64_t seeds = 2;
constexpr std::uint64_t steps = 20;
#else
constexpr std::uint64_t seeds = 5;
constexpr std::uint64_t steps = 120;
#endif

RouteRequest for_steps(std::uint64_t seed = 1) {
  RouteRequest request;
  request.most_steps = steps;
  request.seed = seed;
  return request;
}

// Gardens of 12 to 20 lamps, wired once for all tests.
const job::Job& wired_garden(std::uint64_t seed) {
  static std::map<std::uint64_t, job::Job> wired;
  const auto known = wired.find(seed);
  if (known != wired.end()) return known->second;
  const auto lamps = static_cast<std::uint32_t>(10 + 2 * seed);
  const RouteAnswer answer = sites::planned(sites::lot({lamps, seed}, sites::stock()), for_steps());
  EXPECT_TRUE(answer.job.has_value()) << "seed " << seed;
  return wired.emplace(seed, answer.job.value_or(job::Job{})).first->second;
}

template <class Item>
const Item* find(const std::vector<Item>& items, const std::string& id) {
  const auto found = std::find_if(items.begin(), items.end(), [&](const Item& item) { return item.id == id; });
  return found == items.end() ? nullptr : &*found;
}

// Calls each(wired job, seed) for a number of gardens.
template <class Each>
void for_gardens(Each each) {
  for (std::uint64_t seed = 1; seed <= seeds; ++seed) {
    SCOPED_TRACE(testing::Message() << "seed " << seed);
    each(wired_garden(seed), seed);
    if (testing::Test::HasFatalFailure()) return;
  }
}

TEST(RoutePins, AKeptCableKeepsItsEndsItsItemAndItsWay) {
  for_gardens([](const job::Job& before, std::uint64_t seed) {
    wiring::Dice dice(seed);
    RouteRequest request = for_steps(seed + 100);
    std::set<std::string> ids;
    while (ids.size() < 3) ids.insert(before.cables[dice.below(before.cables.size())].id);
    request.pins.kept_cables.assign(ids.begin(), ids.end());
    const RouteAnswer answer = sites::planned(before, request);
    ASSERT_TRUE(answer.job.has_value()) << (answer.obstacles.empty() ? "" : answer.obstacles[0].message);
    EXPECT_TRUE(answer.planned.sound);
    for (const std::string& id : ids) {
      const job::Cable* kept = find(answer.job->cables, id);
      ASSERT_NE(kept, nullptr) << id;
      const job::Cable& was = *find(before.cables, id);
      EXPECT_EQ(kept->from, was.from) << id;
      EXPECT_EQ(kept->to, was.to) << id;
      EXPECT_EQ(kept->item, was.item) << id;
      EXPECT_EQ(kept->path, was.path) << id;
    }
  });
}

double length_of(const geometry::Polyline& path) {
  double sum_m = 0;
  for (std::size_t i = 1; i < path.size(); ++i) sum_m += geometry::distance_m(path[i - 1], path[i]);
  return sum_m;
}

Point2 at_length(const geometry::Polyline& path, double along_m) {
  for (std::size_t i = 1; i < path.size(); ++i) {
    const double piece_m = geometry::distance_m(path[i - 1], path[i]);
    if (along_m <= piece_m && piece_m > 0) {
      const double share = along_m / piece_m;
      return {path[i - 1].x_m + share * (path[i].x_m - path[i - 1].x_m),
              path[i - 1].y_m + share * (path[i].y_m - path[i - 1].y_m)};
    }
    along_m -= piece_m;
  }
  return path.back();
}

double distance_to(Point2 point, const geometry::Polyline& path) {
  double least_m = std::numeric_limits<double>::infinity();
  for (std::size_t i = 1; i < path.size(); ++i) {
    least_m = std::min(least_m, geometry::distance_to_segment_m(point, path[i - 1], path[i]));
  }
  return least_m;
}

// Metres of the forbidden way that lie within 0.1 m of a new cable; without its last half metres, and without what lies
// in a sleeve that is there, since nothing is dug to pull a cable through it.
double dug_along_m(const geometry::Polyline& forbidden, const job::Job& plan, const std::vector<job::Cable>& cables) {
  constexpr double step_m = 0.05;
  constexpr double near_m = 0.1;
  constexpr double end_m = 0.5;
  double sum_m = 0;
  for (double along_m = end_m; along_m < length_of(forbidden) - end_m; along_m += step_m) {
    const Point2 point = at_length(forbidden, along_m);
    const auto lies_near = [&](const auto& laid) { return distance_to(point, laid.path) < near_m; };
    const auto& sleeves = plan.plan.sleeves;
    const bool is_dug =
        std::any_of(cables.begin(), cables.end(), lies_near) && std::none_of(sleeves.begin(), sleeves.end(), lies_near);
    if (is_dug) sum_m += step_m;
  }
  return sum_m;
}

TEST(RoutePins, NothingIsDugAlongAForbiddenTrench) {
  int answered = 0;
  for_gardens([&](const job::Job& before, std::uint64_t seed) {
    wiring::Dice dice(seed);
    // One that is long enough to tell digging along it from crossing it.
    const job::Cable* chosen = nullptr;
    while (!chosen || dug_along_m(chosen->path, before, {*chosen}) < 2) {
      chosen = &before.cables[dice.below(before.cables.size())];
    }
    const job::Cable& forbidden = *chosen;
    RouteRequest request = for_steps(seed + 100);
    request.pins.forbidden_trenches = {forbidden.id};
    const RouteAnswer answer = sites::planned(before, request);
    if (!answer.job) {
      EXPECT_FALSE(answer.obstacles.empty());
      return;
    }
    ++answered;
    EXPECT_TRUE(answer.planned.sound);
    constexpr double crossings_m = 1;  // to be crossed is not to be dug along
    EXPECT_LE(dug_along_m(forbidden.path, before, answer.job->cables), crossings_m) << forbidden.id;
  });
  EXPECT_GE(answered, static_cast<int>(seeds / 2));
}

TEST(RoutePins, ALampOnItsOwnOutputIsAloneThere) {
  for_gardens([](const job::Job& before, std::uint64_t seed) {
    wiring::Dice dice(seed);
    const std::string lamp = before.luminaires[dice.below(before.luminaires.size())].id;
    RouteRequest request = for_steps(seed + 100);
    request.pins.own_outputs = {lamp};
    const RouteAnswer answer = sites::planned(before, request);
    ASSERT_TRUE(answer.job.has_value());
    const Report report = check(*answer.job, sites::us_rules(), sites::stock(), {.cures = false});
    EXPECT_TRUE(report.sound);
    const std::string output = find(report.lamps, lamp)->output;
    EXPECT_NE(output, "");
    EXPECT_EQ(std::count_if(report.lamps.begin(), report.lamps.end(),
                            [&](const LampReport& other) { return other.output == output; }),
              1);
  });
}

TEST(RoutePins, AKeptTransformerKeepsItsItemAndItsPlace) {
  for_gardens([](const job::Job&, std::uint64_t seed) {
    job::Job site = sites::lot({static_cast<std::uint32_t>(10 + 2 * seed), seed}, sites::stock());
    job::Transformer& kept = site.transformers.back();
    kept.item = "transformer-600va";
    site.catalogue.transformers.push_back(*job::find_transformer(sites::stock(), kept.item));
    RouteRequest request = for_steps(seed);
    request.pins.kept_transformers = {kept.id};
    const RouteAnswer answer = sites::planned(site, request);
    ASSERT_TRUE(answer.job.has_value());
    const job::Transformer* found = find(answer.job->transformers, kept.id);
    ASSERT_NE(found, nullptr);
    EXPECT_EQ(found->item, kept.item);
    EXPECT_EQ(found->position, kept.position);
  });
}

TEST(RoutePins, WithoutHubsNoJointHasMoreThanThreeWires) {
  for_gardens([](const job::Job& before, std::uint64_t seed) {
    RouteRequest request = for_steps(seed);
    request.no_hub = true;
    const RouteAnswer answer = sites::planned(before, request);
    ASSERT_TRUE(answer.job.has_value());
    EXPECT_TRUE(answer.planned.sound);
    for (const auto& wires : estimate::all_joint_wires(*answer.job)) EXPECT_LE(wires.size(), 3u);
  });
}

TEST(RoutePins, NoMoreCableTypesAreUsedThanAllowed) {
  for_gardens([](const job::Job& before, std::uint64_t seed) {
    RouteRequest request = for_steps(seed);
    request.most_cable_types = 1 + seed % 2;
    const RouteAnswer answer = sites::planned(before, request);
    ASSERT_TRUE(answer.job.has_value());
    EXPECT_TRUE(answer.planned.sound);
    std::set<std::string> types;
    for (const job::Cable& cable : answer.job->cables) types.insert(cable.item);
    EXPECT_LE(types.size(), request.most_cable_types);
  });
}

TEST(RoutePins, EveryLeadIsSplicedWhereThatIsAskedFor) {
  for_gardens([](const job::Job& before, std::uint64_t seed) {
    RouteRequest request = for_steps(seed);
    request.splice_every_lead = true;
    const RouteAnswer answer = sites::planned(before, request);
    ASSERT_TRUE(answer.job.has_value());
    for (const job::Luminaire& lamp : answer.job->luminaires) EXPECT_NE(lamp.joint, "") << lamp.id;
  });
}

// Room for lamps added later: the answer is sound with all loads so much larger, too.
TEST(RoutePins, AReserveIsThereWhenTheLoadsGrow) {
  for_gardens([](const job::Job& before, std::uint64_t seed) {
    RouteRequest request = for_steps(seed);
    request.reserve_pct = 25;
    const RouteAnswer answer = sites::planned(before, request);
    ASSERT_TRUE(answer.job.has_value());
    job::Job grown = *answer.job;
    for (job::LuminaireItem& item : grown.catalogue.luminaires) item.power_va *= 1.25;
    const Report report = check(grown, sites::us_rules(), sites::stock(), {.cures = false});
    EXPECT_TRUE(report.sound);
  });
}

}  // namespace
}  // namespace duskwire::study
