// SPDX-License-Identifier: Apache-2.0
#include "study/crew_aim.hpp"

#include <gtest/gtest.h>

#include "study/rule_fixture.hpp"

namespace duskwire::study {
namespace {

// A lawn with a house north of y = 14 and an oak at (6, 10); a bullet of 36 degrees at (6, 8).
job::Job yard() {
  job::Job job;
  job.plan.areas = {rule_testing::square("lawn", job::GroundKind::lawn, 0, 0, 20),
                    rule_testing::square("house", job::GroundKind::building, 10, 14, 6)};
  job.plan.areas[1].name = "House";
  job.plan.areas[1].height_m = 5;
  job::Tree oak;
  oak.name = "Old oak";
  oak.position = {6, 10};
  oak.height_m = 8;
  oak.crown_width_m = 5;
  oak.crown_base_m = 2;
  job.plan.trees = {oak};
  job::LuminaireItem bullet;
  bullet.id = "bullet";
  bullet.title = "Bullet, 36 degrees";
  bullet.kind = job::LuminaireKind::bullet;
  bullet.beam_deg = 36;
  job::LuminaireItem path = bullet;
  path.id = "path";
  path.kind = job::LuminaireKind::path;
  path.beam_deg = 360;
  job.catalogue.luminaires = {bullet, path};
  job::Luminaire lamp;
  lamp.id = "F1";
  lamp.item = "bullet";
  lamp.position = {6, 8, 0.2};
  lamp.tilt_deg = 60;
  job.luminaires = {lamp};
  return job;
}

CrewAim aim_in(const job::Job& job) { return crew_aims(job, {}).at(0); }

TEST(CrewAim, ALampBeforeATreeLightsTheTree) {
  const CrewAim aim = aim_in(yard());
  EXPECT_TRUE(aim.aimed);
  EXPECT_EQ(aim.lights, "Old oak");
  EXPECT_NEAR(aim.setback_m.value(), 2, 1e-9);
  EXPECT_EQ(lights_in_words(aim, job::DisplayUnits::metric), "Old oak, 2 m away");
  EXPECT_EQ(lights_in_words(aim, job::DisplayUnits::us), "Old oak, 6.6 ft away");
}

TEST(CrewAim, ALampBeforeAWallSaysHowFarOffItStands) {
  job::Job job = yard();
  job.luminaires[0].position = {13, 13.4, 0.2};
  const CrewAim aim = aim_in(job);
  EXPECT_EQ(aim.lights, "a wall of House");
  EXPECT_NEAR(aim.setback_m.value(), 0.6, 1e-9);
}

TEST(CrewAim, LookingAwayItLightsNothingOfThePlan) {
  job::Job job = yard();
  job.luminaires[0].position = {17, 2, 0.2};
  job.luminaires[0].azimuth_deg = 180;
  job.luminaires[0].tilt_deg = 20;
  const CrewAim aim = aim_in(job);
  EXPECT_EQ(aim.lights, "");
  EXPECT_EQ(lights_in_words(aim, job::DisplayUnits::us), "nothing on the plan");
}

TEST(CrewAim, ALampHighInATreeIsLadderWorkAndLightsTheGround) {
  job::Job job = yard();
  job.luminaires[0].position = {17, 2, 6};
  job.luminaires[0].tilt_deg = -90;
  const CrewAim aim = aim_in(job);
  EXPECT_TRUE(aim.on_ladder);
  EXPECT_EQ(aim.lights, "the lawn");
}

TEST(CrewAim, APathLightIsNotAimed) {
  job::Job job = yard();
  job.luminaires[0].item = "path";
  const CrewAim aim = aim_in(job);
  EXPECT_FALSE(aim.aimed);
  EXPECT_EQ(lights_in_words(aim, job::DisplayUnits::us), "the lawn around it");
}

}  // namespace
}  // namespace duskwire::study
