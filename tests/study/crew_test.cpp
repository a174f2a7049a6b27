// SPDX-License-Identifier: Apache-2.0
// One truth: whatever the crew's lists say of counts, metres, volt-amperes and goods is what the list of materials and
// the report say, on gardens wired by hand and by the planner.
#include "study/crew.hpp"

#include <gtest/gtest.h>

#include <map>
#include <numeric>
#include <set>

#include "estimate/installed.hpp"
#include "sites/lots.hpp"
#include "sites/planned.hpp"
#include "sites/stock.hpp"
#include "study/check.hpp"
#include "study/wired_jobs.hpp"

namespace duskwire::study {
namespace {

constexpr double metre_dust = 1e-6;

struct Papers {
  job::Job job;
  estimate::Materials materials;
  Report report;
  CrewSet set;
};

Papers papers_of(job::Job job) {
  Papers papers;
  papers.job = std::move(job);
  papers.materials = estimate::materials(papers.job, sites::stock());
  papers.report = check(papers.job, sites::us_rules(), sites::stock(), {.cures = false});
  papers.set = crew_set(papers.job, sites::stock(), papers.materials, papers.report);
  return papers;
}

job::Job planned_lot(std::uint32_t lamps, std::uint64_t seed) {
  RouteRequest request;
  request.most_steps = 20;
  const RouteAnswer answer = sites::planned(sites::lot({lamps, seed}, sites::stock()), request);
  return answer.job.value();
}

std::vector<job::Job> gardens() {
  std::vector<job::Job> all = {tests::two_splice_site(), tests::chained_garden(4, 6, 13)};
  for (const std::uint64_t seed : {1, 2, 3}) all.push_back(planned_lot(12, seed));
  return all;
}

using Goods = std::map<std::pair<estimate::Category, std::string>, double>;

TEST(Crew, EveryLampAndEveryCableStandsInOneRun) {
  for (const job::Job& job : gardens()) {
    const Papers papers = papers_of(job);
    std::multiset<std::string> lamps;
    std::multiset<std::string> cables;
    for (const CrewRun& run : papers.set.runs) {
      for (const CrewLamp& lamp : run.lamps) lamps.insert(lamp.id);
      for (const CrewStep& step : run.steps) cables.insert(step.cable);
    }
    std::multiset<std::string> job_lamps;
    std::multiset<std::string> job_cables;
    for (const job::Luminaire& luminaire : job.luminaires) job_lamps.insert(luminaire.id);
    for (const job::Cable& cable : job.cables) job_cables.insert(cable.id);
    EXPECT_EQ(lamps, job_lamps);
    EXPECT_EQ(cables, job_cables);
    EXPECT_EQ(papers.set.totals.luminaires, job.luminaires.size());
    EXPECT_EQ(papers.set.totals.cables, papers.materials.cuts.size());
    EXPECT_EQ(papers.set.totals.joints, papers.materials.splices.size());
  }
}

TEST(Crew, MetresAndVoltAmperesAreThoseOfMaterialsAndReport) {
  for (const job::Job& job : gardens()) {
    const Papers papers = papers_of(job);
    double route_m = 0;
    double cut_m = 0;
    double bought_m = 0;
    for (const estimate::CableTotal& total : papers.materials.cables) {
      route_m += total.route_m;
      cut_m += total.cut_m;
      bought_m += total.bought_m;
    }
    EXPECT_NEAR(papers.set.totals.route_m, route_m, metre_dust);
    EXPECT_NEAR(papers.set.totals.cut_m, cut_m, metre_dust);
    EXPECT_NEAR(papers.set.totals.bought_m, bought_m, metre_dust);
    EXPECT_NEAR(papers.set.totals.lamp_va, papers.report.lamp_va, 1e-3);
    std::vector<std::string> to_lay;
    for (const job::Sleeve& sleeve : job.plan.sleeves) to_lay.push_back(sleeve.id);
    EXPECT_NEAR(papers.set.totals.dug_m, estimate::installed_cost(job, sites::stock(), {}, to_lay).trench_m,
                metre_dust);
    std::map<std::string, double> va;
    for (const CrewRun& run : papers.set.runs) va[run.transformer] += run.va;
    for (const TransformerReport& report : papers.report.transformers) EXPECT_NEAR(va[report.id], report.lamp_va, 1e-3);
  }
}

TEST(Crew, TheBagsTogetherAreTheListOfMaterials) {
  for (const job::Job& job : gardens()) {
    const Papers papers = papers_of(job);
    Goods listed;
    for (const estimate::MaterialLine& line : papers.materials.lines)
      listed[{line.category, line.item}] = line.quantity;
    Goods dealt;
    for (const CrewBag& bag : papers.set.bags) {
      for (const CrewPick& pick : bag.picks) dealt[{pick.category, pick.item}] += pick.quantity;
    }
    ASSERT_EQ(dealt.size(), listed.size());
    for (const auto& [key, quantity] : listed) EXPECT_NEAR(dealt[key], quantity, metre_dust) << key.second;
  }
}

TEST(Crew, NothingThatHasAPlaceIsLeftInTheVan) {
  for (const job::Job& job : gardens()) {
    for (const CrewBag& bag : papers_of(job).set.bags) {
      if (bag.kind != BagKind::van) continue;
      for (const CrewPick& pick : bag.picks) {
        EXPECT_NE(pick.category, estimate::Category::luminaire) << pick.item;
        EXPECT_NE(pick.category, estimate::Category::connector) << pick.item;
        EXPECT_NE(pick.category, estimate::Category::transformer) << pick.item;
        EXPECT_NE(pick.category, estimate::Category::mount) << pick.item;
      }
    }
  }
}

TEST(Crew, ConnectorsOfTheJointListAreThoseThatAreBought) {
  for (const job::Job& job : gardens()) {
    const Papers papers = papers_of(job);
    double bought = 0;
    for (const estimate::MaterialLine& line : papers.materials.lines) {
      if (line.category == estimate::Category::connector) bought += line.quantity;
    }
    EXPECT_EQ(papers.set.totals.connectors, bought);
    EXPECT_GT(papers.set.totals.connectors, 0u);
  }
}

TEST(Crew, VoltsAndAmpsAreTheReports) {
  for (const job::Job& job : gardens()) {
    const Papers papers = papers_of(job);
    std::map<std::string, const LampReport*> reports;
    for (const LampReport& report : papers.report.lamps) reports[report.id] = &report;
    std::map<std::string, double> sheet_v;
    for (const CommissioningOutput& output : papers.set.commissioning.outputs) {
      for (const CommissioningRow& row : output.rows) sheet_v[row.id] = row.nominal_v;
    }
    for (const CrewRun& run : papers.set.runs) {
      for (const CrewLamp& lamp : run.lamps) {
        EXPECT_EQ(lamp.nominal_v, reports.at(lamp.id)->nominal_v);
        EXPECT_EQ(lamp.current_a, reports.at(lamp.id)->current_a);
        EXPECT_NEAR(sheet_v.at(lamp.id), lamp.nominal_v, 1e-9) << lamp.id;
      }
    }
    for (std::size_t o = 0; o < papers.report.outputs.size(); ++o) {
      EXPECT_NEAR(papers.set.commissioning.outputs.at(o).current_a, papers.report.outputs[o].current_a, 1e-9);
    }
  }
}

}  // namespace
}  // namespace duskwire::study
