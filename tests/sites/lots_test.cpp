// SPDX-License-Identifier: Apache-2.0
// The generator keeps its word: jobs that the reader takes without a remark, the same for the same seed, lamps where
// lamps may stand.
#include "sites/lots.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "formats/job_reader.hpp"
#include "formats/job_writer.hpp"
#include "geometry/polygon.hpp"
#include "job/plan_ground.hpp"
#include "sites/stock.hpp"

namespace duskwire::sites {
namespace {

using job::GroundKind;

constexpr std::uint32_t sizes[] = {1, 10, 20, 40, 80, 150, 400, 1000, 2000};

void expect_reads_back_without_a_remark(const job::Job& job) {
  const formats::ReadJob read = formats::read_job(formats::write_job(job));
  ASSERT_TRUE(read.job.has_value());
  EXPECT_EQ(*read.job, job);
  for (const Problem& problem : read.problems) ADD_FAILURE() << problem.pointer << " " << problem.message;
}

TEST(Lots, AreJobsThatTheReaderTakesWithoutARemark) {
  for (const std::uint32_t lamps : sizes) {
    for (std::uint64_t seed = 1; seed <= 4; ++seed) {
      SCOPED_TRACE(testing::Message() << lamps << " lamps, seed " << seed);
      const job::Job job = lot({lamps, seed}, stock());
      EXPECT_EQ(job.luminaires.size(), lamps);
      EXPECT_GE(job.transformers.size(), 1u);
      EXPECT_TRUE(job.cables.empty());
      expect_reads_back_without_a_remark(job);
      if (lamps <= 20) expect_reads_back_without_a_remark(open_lawn({lamps, seed}, stock()));
    }
  }
}

TEST(Lots, AreTheSameForTheSameSeedAndOthersForAnother) {
  EXPECT_EQ(lot({40, 3}, stock()), lot({40, 3}, stock()));
  EXPECT_NE(lot({40, 3}, stock()).plan, lot({40, 4}, stock()).plan);
  EXPECT_EQ(open_lawn({8, 3}, stock()), open_lawn({8, 3}, stock()));
}

bool may_hold_a_lamp(std::optional<GroundKind> ground) {
  return !ground || *ground == GroundKind::bed || *ground == GroundKind::lawn || *ground == GroundKind::root_zone;
}

TEST(Lots, SetLampsAndTransformersWhereTheyMayStand) {
  for (const std::uint32_t lamps : sizes) {
    for (std::uint64_t seed = 1; seed <= 8; ++seed) {
      SCOPED_TRACE(testing::Message() << lamps << " lamps, seed " << seed);
      const job::Job job = lot({lamps, seed}, stock());
      const job::PlanGround ground(job.plan);
      for (const job::Luminaire& lamp : job.luminaires) {
        const geometry::Point2 at{lamp.position->x_m, lamp.position->y_m};
        EXPECT_TRUE(may_hold_a_lamp(ground.at(at))) << lamp.id;
        for (const job::Area& area : job.plan.areas) {
          if (area.kind != GroundKind::pool) continue;
          EXPECT_GE(geometry::distance_m(area.outline, at), 3.0) << lamp.id;
        }
      }
      for (const job::Transformer& transformer : job.transformers) {
        EXPECT_NE(ground.at(*transformer.position), GroundKind::building) << transformer.id;
      }
    }
  }
}

// Among some seeds each of the things is met that a way has to mind.
TEST(Lots, HaveWhatAWayHasToMind) {
  std::set<GroundKind> met;
  bool sleeve_under_drive = false;
  bool none_under_drive = false;
  for (std::uint64_t seed = 1; seed <= 12; ++seed) {
    const job::Job job = lot({40, seed}, stock());
    for (const job::Area& area : job.plan.areas) met.insert(area.kind);
    const bool has = std::any_of(job.plan.sleeves.begin(), job.plan.sleeves.end(),
                                 [](const job::Sleeve& sleeve) { return sleeve.id == "sleeve-drive"; });
    (has ? sleeve_under_drive : none_under_drive) = true;
  }
  for (const GroundKind kind : {GroundKind::building, GroundKind::drive, GroundKind::street, GroundKind::paving,
                                GroundKind::bed, GroundKind::pool, GroundKind::water, GroundKind::root_zone}) {
    EXPECT_TRUE(met.contains(kind)) << static_cast<int>(kind);
  }
  EXPECT_TRUE(sleeve_under_drive);
  EXPECT_TRUE(none_under_drive);
}

}  // namespace
}  // namespace duskwire::sites
