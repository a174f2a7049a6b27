// SPDX-License-Identifier: Apache-2.0
#include "cli/route_page.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "cli/route_comparison.hpp"

namespace duskwire::cli {
namespace {

using ::testing::AllOf;
using ::testing::ContainsRegex;
using ::testing::EndsWith;
using ::testing::HasSubstr;
using ::testing::Not;
using ::testing::StartsWith;

study::RouteFigures figures(std::int64_t cost_minor, bool sound) {
  study::RouteFigures made;
  made.cost.cost_minor = cost_minor;
  made.cost.material_minor = cost_minor / 2;
  made.cost.labour_min = 120;
  made.cost.trench_m = 30.48;
  made.cost.cable_m = 60.96;
  made.cost.joints = 3;
  made.cost.cable_types = 2;
  made.lowest_v = 10.254;
  made.lowest_lamp = "F2";
  made.load_margin = 1.5;
  made.errors = sound ? 0 : 1;
  made.wired = true;
  made.sound = sound;
  return made;
}

struct Made {
  job::Job job;
  study::RouteAnswer answer;

  Made() {
    job.site.currency = "EUR";
    job.luminaires.resize(2);
    answer.job = job;
    answer.today = figures(200'000, true);
    answer.planned = figures(150'000, true);
    answer.planned.cost.joints = 1;
    answer.bound_minor = 142'500;
    study::RouteRun run;
    run.cable = "T1-A.1";
    run.lamps = {"F1", "F2"};
    run.sentence = "a chain from T1-A.";
    answer.runs = {run};
  }
  [[nodiscard]] std::string text(bool is_written = false) const {
    return route_text({job, answer, is_written, {}}, {});
  }
  // Its first paragraph, unbroken.
  [[nodiscard]] std::string verdict() const {
    TextStyle wide;
    wide.width = 1000;
    const std::string whole = route_text({job, answer, false, {}}, wide);
    return whole.substr(0, whole.find('\n'));
  }
};

TEST(RoutePage, BeginsWithTheGainAndWhatCouldStillBeSaved) {
  const std::string text = Made().verdict();
  EXPECT_THAT(text, StartsWith("Planned: a sound wiring of 2 lamps that costs 1500.00 EUR to put in."));
  EXPECT_THAT(text, HasSubstr("500.00 EUR (25 %) less than today's wiring."));
  EXPECT_THAT(text, HasSubstr("less than 1425.00 EUR: at most 5.0 % could"));
}

TEST(RoutePage, ADearerPlanIsCalledDearerAndAnUnsoundTodayUnsound) {
  Made made;
  made.answer.today = figures(100'000, false);
  EXPECT_THAT(made.verdict(), HasSubstr("500.00 EUR (50 %) more than today's wiring, which is not sound (1 error)."));
  made.answer.today.wired = false;
  EXPECT_THAT(made.verdict(), HasSubstr("Today not every lamp is fed."));
}

TEST(RoutePage, EachRunStandsWithItsReasonAndItsLamps) {
  EXPECT_THAT(Made().text(), HasSubstr("  T1-A.1  a chain from T1-A.\n    feeds  F1, F2\n"));
}

TEST(RoutePage, EndsWithOneLineOfCostDigCableJointsAndVolts) {
  EXPECT_THAT(Made().text(), EndsWith("\n\n1500.00 EUR, 30.5 m dug, 61.0 m of cable, 1 joint, 10.25 V at worst\n"));
  TextStyle feet;
  feet.units = job::DisplayUnits::us;
  const Made made;
  EXPECT_EQ(route_summary({made.job, made.answer, false, {}}, feet),
            "1500.00 EUR, 100 ft dug, 200 ft of cable, 1 joint, 10.25 V at worst");
}

TEST(RoutePage, SaysWhereThePlannedJobWentOnlyIfNowhere) {
  EXPECT_THAT(Made().text(false), HasSubstr("--output FILE"));
  EXPECT_THAT(Made().text(true), Not(HasSubstr("--output")));
}

TEST(RoutePage, SleevesToLayAreNamedWithTheirLength) {
  Made made;
  made.answer.sleeves_to_lay = {"new-1"};
  job::Sleeve sleeve;
  sleeve.id = "new-1";
  sleeve.path = {{0, 0}, {3.2, 0}};
  made.answer.job->plan.sleeves = {sleeve};
  EXPECT_THAT(made.text(), HasSubstr("Sleeves to lay\n  new-1 (3.2 m)\n"));
}

TEST(RoutePage, WithoutAPlanItSaysWhatStandsInTheWayAndEachCureOnce) {
  Made made;
  made.answer.job.reset();
  made.answer.runs.clear();
  made.answer.obstacles = {{"F1", "F1 has no place.", "Put it on the plan."},
                           {"F2", "F2 has no place.", "Put it on the plan."},
                           {"", "The load is too high.", ""}};
  const std::string text = made.text();
  EXPECT_THAT(text, StartsWith("Not planned: no sound wiring of the 2 lamps was found."));
  EXPECT_THAT(text,
              HasSubstr("   1. F1 has no place.\n   2. F2 has no place.\n      cure  Put it on the plan.\n   3. The "
                        "load is too high.\n\n"));
  EXPECT_THAT(made.text(true), HasSubstr("Nothing was written."));
  EXPECT_THAT(text, AllOf(Not(HasSubstr("Nothing was written")), Not(HasSubstr("planned  ")),
                          EndsWith("\nNo sound wiring found: 3 obstacles.\n")));
}

std::string line_of(const std::string& table, const std::string& name) {
  const std::size_t at = table.find("  " + name + "  ");
  return at == std::string::npos ? "" : table.substr(at, table.find('\n', at) - at);
}

TEST(RouteComparison, TellsTheChangeAsAShareAndOfCountsAsANumber) {
  const std::string table = comparison(Made().answer, "EUR", {});
  EXPECT_THAT(line_of(table, "cost, put in"), ContainsRegex("2000\\.00 EUR +1500\\.00 EUR +-25 %"));
  EXPECT_THAT(line_of(table, "joints"), ContainsRegex("3 +1 +-2"));
  EXPECT_THAT(line_of(table, "dug"), ContainsRegex("30\\.5 m +30\\.5 m$"));
  EXPECT_THAT(line_of(table, "lowest at worst"), ContainsRegex("10\\.25 V at F2 +10\\.25 V at F2$"));
  EXPECT_THAT(line_of(table, "loads could grow by"), ContainsRegex("50 % +50 %$"));
  EXPECT_THAT(line_of(table, "state"), ContainsRegex("sound +sound$"));
}

TEST(RouteComparison, AgainstAGardenWithoutWiringThereIsNoChange) {
  Made made;
  made.answer.today = {};
  const std::string table = comparison(made.answer, "EUR", {});
  EXPECT_THAT(line_of(table, "lowest at worst"), ContainsRegex(" - +10\\.25 V at F2$"));
  EXPECT_THAT(line_of(table, "state"), ContainsRegex("not wired +sound$"));
  EXPECT_THAT(line_of(table, "joints"), ContainsRegex("0 +1$"));
}

}  // namespace
}  // namespace duskwire::cli
