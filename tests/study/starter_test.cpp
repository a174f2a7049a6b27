// SPDX-License-Identifier: Apache-2.0
#include "study/starter.hpp"

#include <gtest/gtest.h>

#include <set>

#include "study/check.hpp"

namespace duskwire::study {
namespace {

job::LuminaireItem lamp_item(const std::string& id, double power_va) {
  job::LuminaireItem item;
  item.id = id;
  item.power_w = power_va;
  item.power_va = power_va;
  item.window_min_v = 10;
  item.window_max_v = 15;
  item.v_cut_off = 7;
  item.v_regulation_min = 10;
  item.lead_length_m = 0.9;
  item.lead_area_mm2 = 0.82;
  return item;
}

job::TransformerItem transformer_item(const std::string& id, double rating_va, std::uint32_t outputs) {
  job::TransformerItem item;
  item.id = id;
  item.rating_va = rating_va;
  item.output_count = outputs;
  item.taps_v = {12, 13, 14, 15};
  item.r_own_ohm = 0.02;
  return item;
}

job::CableItem cable_item(const std::string& id, double gauge_awg, double area_mm2, double ohm_per_m) {
  job::CableItem item;
  item.id = id;
  item.gauge_awg = gauge_awg;
  item.area_mm2 = area_mm2;
  item.ohm_per_m_20c = ohm_per_m;
  item.ampacity_a = 20;
  return item;
}

job::Catalogue stock() {
  job::Catalogue stock;
  stock.luminaires = {lamp_item("small", 4), lamp_item("large", 40), lamp_item("giant", 900)};
  stock.transformers = {transformer_item("t150", 150, 1), transformer_item("t600", 600, 2)};
  stock.cables = {cable_item("14", 14, 2.08, 0.00829), cable_item("12", 12, 3.31, 0.00521),
                  cable_item("10", 10, 5.26, 0.00328)};
  job::ConnectorItem connector;
  connector.id = "crimp";
  connector.fills = {{0.5, 6, 2, 10, {}}};
  connector.sealed = true;
  connector.mechanically_held = true;
  stock.connectors = {connector};
  return stock;
}

job::Luminaire lamp(const std::string& item, double x_m, double y_m, const std::string& zone) {
  job::Luminaire lamp;
  lamp.item = item;
  lamp.position = geometry::Point3{x_m, y_m, 0};
  lamp.zone = zone;
  return lamp;
}

job::Job started(const std::vector<job::Luminaire>& lamps) {
  const Result<job::Job> job = start_job({"A Test: Garden", "2026-01-02", {}, lamps}, {}, stock());
  EXPECT_TRUE(job.ok()) << (job.ok() ? "" : job.error().message);
  return job.ok() ? job.value() : job::Job{};
}

// Every lamp is fed and inside its window in every corner.
void expect_served(const job::Job& job) {
  const Report report = check(job, {}, stock(), {.cures = false});
  EXPECT_EQ(report.lamps.size(), job.luminaires.size());
  for (const LampReport& lamp : report.lamps) {
    EXPECT_NE(lamp.output, "") << lamp.id;
    EXPECT_GE(lamp.worst_low_v, lamp.window_min_v) << lamp.id;
    EXPECT_LE(lamp.worst_high_v, lamp.window_max_v) << lamp.id;
  }
}

TEST(Starter, LampsInARowBecomeAChain) {
  const job::Job job =
      started({lamp("small", 5, 0, "walk"), lamp("small", 17, 0, "walk"), lamp("small", 29, 0, "walk")});
  EXPECT_EQ(job.id, "a-test-garden");
  ASSERT_EQ(job.cables.size(), 3u);
  EXPECT_EQ(job.cables[1].from, job.cables[0].to);
  EXPECT_EQ(job.joints.back().kind, job::JointKind::end_of_run);
  expect_served(job);
}

TEST(Starter, LampsRoundAMiddleHangOnAHub) {
  const job::Job job = started({lamp("small", 10, 14, "tree"), lamp("small", 14, 10, "tree"),
                                lamp("small", 10, 6, "tree"), lamp("small", 6, 10, "tree")});
  ASSERT_EQ(job.joints.size(), 1u);
  EXPECT_EQ(job.joints[0].kind, job::JointKind::hub);
  EXPECT_EQ(job.cables.size(), 5u);
  expect_served(job);
}

TEST(Starter, ZonesHaveRunsOfTheirOwnAndEveryJointItsConnector) {
  const job::Job job =
      started({lamp("small", 5, 0, "walk"), lamp("small", 10, 0, "walk"), lamp("small", -5, 0, "bed")});
  std::set<std::string> trunks;
  for (const job::Cable& cable : job.cables) {
    if (cable.from == "T1-A" || cable.from == "T1-B") trunks.insert(cable.id);
  }
  EXPECT_EQ(trunks.size(), 2u);
  for (const job::Joint& joint : job.joints) EXPECT_EQ(joint.connector, "crimp");
}

TEST(Starter, LampsWithoutAPlaceAreSetInARow) {
  job::Luminaire bare;
  bare.item = "small";
  const job::Job job = started({bare, bare, bare});
  std::set<double> places;
  for (const job::Luminaire& lamp : job.luminaires) places.insert(lamp.position.value().x_m);
  EXPECT_EQ(places.size(), 3u);
  expect_served(job);
}

TEST(Starter, TheTransformerCarriesTheLoadWithItsHeadroom) {
  std::vector<job::Luminaire> lamps;
  for (int i = 0; i < 9; ++i) lamps.push_back(lamp("large", 4 + i, i % 2, i < 5 ? "a" : "b"));
  const job::Job job = started(lamps);
  ASSERT_EQ(job.transformers.size(), 1u);
  EXPECT_EQ(job.transformers[0].item, "t600");  // 360 VA: 150 VA cannot, 80 % of 600 VA can
  const Report report = check(job, {}, stock(), {.cures = false});
  EXPECT_LE(report.transformers.at(0).load_share, 0.8);
}

TEST(Starter, KeepsOnlyTheArticlesInUse) {
  const job::Job job = started({lamp("small", 5, 0, "walk")});
  EXPECT_EQ(job.catalogue.luminaires.size(), 1u);
  EXPECT_EQ(job.catalogue.transformers.size(), 1u);
}

TEST(Starter, AnArticleThatTheStockLacksIsNamed) {
  const Result<job::Job> job = start_job({"x", "", {}, {lamp("moonbeam", 1, 1, "")}}, {}, stock());
  ASSERT_FALSE(job.ok());
  EXPECT_EQ(job.error().code, ErrorCode::not_found);
  EXPECT_NE(job.error().message.find("moonbeam"), std::string::npos);
}

TEST(Starter, ALampBeyondEveryTransformerIsRefused) {
  const Result<job::Job> job = start_job({"x", "", {}, {lamp("giant", 1, 1, "")}}, {}, stock());
  ASSERT_FALSE(job.ok());
  EXPECT_EQ(job.error().code, ErrorCode::unsupported);
}

}  // namespace
}  // namespace duskwire::study
