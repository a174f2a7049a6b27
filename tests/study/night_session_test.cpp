// SPDX-License-Identifier: Apache-2.0
// A wall on a photograph, lit while the job is edited: what is computed anew, what a place tells, what is refused.
#include "study/night_session.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "light/camera.hpp"
#include "study/lit_jobs.hpp"

namespace duskwire::study {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

constexpr std::uint32_t width_px = 160;
constexpr std::uint32_t height_px = 120;

// Stands 9 m south of the wall's west end and looks north-east at it, so that the picture tells its focal length.
light::Camera true_camera() {
  light::Camera camera;
  camera.width_px = width_px;
  camera.height_px = height_px;
  camera.focal_px = 140;
  camera.principal = {width_px / 2.0, height_px / 2.0};
  camera.position = {0, -9, 1.6};
  const double turn = 0.45;
  camera.axes = {geometry::Vec3{std::cos(turn), -std::sin(turn), 0}, geometry::Vec3{0, 0, -1},
                 geometry::Vec3{std::sin(turn), std::cos(turn), 0}};
  return camera;
}

geometry::PixelOutline seen(const std::vector<geometry::Point3>& corners) {
  geometry::PixelOutline outline;
  for (const geometry::Point3& corner : corners) outline.push_back(*pixel_from_site(true_camera(), corner));
  return outline;
}

// A wall of 6 m by 3 m along y = 0, with a house behind it on the plan, and two lamps before it.
job::Job walled_job() {
  job::Job job = tests::bare_lot();
  tests::add_area(job, "house", job::GroundKind::building, tests::rectangle(1, 0, 7, 5), 3);
  tests::place_lamp(job, "A", "wash-90", {2.5, -1, 0.2}).tilt_deg = 45;
  tests::place_lamp(job, "B", "wash-90", {5.5, -1, 0.2}).tilt_deg = 45;
  job::View view;
  view.id = "front";
  view.width_px = width_px;
  view.height_px = height_px;
  job::Calibration calibration;
  calibration.focal_px = 140;
  job::KnownWall wall;
  wall.left = {1, 0, 0};
  wall.right = {7, 0, 0};
  wall.height_m = 3;
  wall.corners_px = seen({{1, 0, 0}, {7, 0, 0}, {7, 0, 3}, {1, 0, 3}});
  calibration.wall = wall;
  view.calibration = calibration;
  job::PictureSurface surface;
  surface.id = "wall";
  surface.name = "Wall";
  surface.outline_px = wall.corners_px;
  surface.on_plane = {1, 0, 0};
  surface.normal = {0, -1, 0};
  surface.reflectance = 0.4;
  view.surfaces = {surface};
  view.night.ambient_lx = 0;
  job.views = {view};
  return job;
}

NightSession with_photograph() {
  NightSession session;
  session.give({width_px, height_px, std::vector<std::uint8_t>(std::size_t{3} * width_px * height_px, 130)});
  return session;
}

NightWish wish_for(const std::string& view) {
  NightWish out;
  out.view = view;
  return out;
}

NightFacts picture(NightSession& session, const job::Job& job, const NightWish& wish = wish_for("front")) {
  const Result<NightFacts> made = session.picture(job, wish);
  EXPECT_TRUE(made.ok()) << (made.ok() ? "" : made.error().message);
  return made.ok() ? made.value() : NightFacts{};
}

geometry::PixelPoint pixel_of(geometry::Point3 place) { return *pixel_from_site(true_camera(), place); }

TEST(NightSession, PlaceTellsLuxAndLuminanceIsThatTimesReflectanceOverPi) {
  NightSession session = with_photograph();
  const NightFacts facts = picture(session, walled_job());
  EXPECT_EQ(facts.lamps.size(), 2u);
  EXPECT_TRUE(facts.lamps[0].is_in_picture);
  const geometry::PixelPoint at = pixel_of({2.5, 0, 1.2});
  const Result<NightProbe> found = session.probe(at.x_px, at.y_px);
  ASSERT_TRUE(found.ok());
  const NightProbe& probe = found.value();
  EXPECT_EQ(probe.piece, "wall");
  ASSERT_TRUE(probe.lux && probe.reflectance && probe.site);
  EXPECT_NEAR(*probe.reflectance, 0.4, 0.001);
  // Light of a warm lamp on a grey wall: its luminance, whatever its colour.
  EXPECT_NEAR(probe.cd_m2, *probe.lux * *probe.reflectance / std::numbers::pi, 0.005 * probe.cd_m2);
  EXPECT_NEAR(probe.site->x_m, 2.5, 0.1);
  EXPECT_NEAR(probe.site->z_m, 1.2, 0.1);
  ASSERT_FALSE(probe.lamps.empty());
  EXPECT_EQ(probe.lamps[0].id, "A");
  // Along its axis: 45 degrees up from 1 m before the wall meets it 1.2 m high, 1.414 m away, at 45 degrees.
  EXPECT_GT(*probe.lux, 20);
}

TEST(NightSession, OnlyTheLampThatMovedIsComputedAnew) {
  NightSession session = with_photograph();
  job::Job job = walled_job();
  EXPECT_THAT(picture(session, job).recomputed, ElementsAre("A", "B"));
  EXPECT_THAT(picture(session, job).recomputed, IsEmpty());
  const std::vector<std::uint8_t> before = session.rgba();
  job.luminaires[1].position->x_m += 0.5;
  EXPECT_THAT(picture(session, job).recomputed, ElementsAre("B"));
  EXPECT_NE(session.rgba(), before);
  job.luminaires[0].dim_pct = 30;
  EXPECT_THAT(picture(session, job).recomputed, IsEmpty());
  job.views[0].surfaces[0].reflectance = 0.2;
  EXPECT_THAT(picture(session, job).recomputed, ElementsAre("A", "B"));
}

TEST(NightSession, KeptLayersGiveTheSamePictureAsFreshOnes) {
  NightSession kept = with_photograph();
  job::Job job = walled_job();
  picture(kept, job);
  job.luminaires[0].position->y_m = -1.4;
  job.luminaires[1].dim_pct = 40;
  picture(kept, job);
  NightSession fresh = with_photograph();
  picture(fresh, job);
  EXPECT_EQ(kept.rgba(), fresh.rgba());
}

// Rounding may move a byte by one, no more.
void expect_fresh(const NightSession& kept, const job::Job& job, int step) {
  NightSession fresh = with_photograph();
  picture(fresh, job);
  ASSERT_EQ(kept.rgba().size(), fresh.rgba().size());
  for (std::size_t i = 0; i < kept.rgba().size(); ++i) {
    ASSERT_LE(std::abs(int{kept.rgba()[i]} - int{fresh.rgba()[i]}), 1) << step << ", byte " << i;
  }
}

// Dragged step by step, then dimmed, then the other one.
TEST(NightSession, ALampInHandGivesThePictureOfAFreshSession) {
  NightSession kept = with_photograph();
  job::Job job = walled_job();
  picture(kept, job);
  for (int step = 0; step < 6; ++step) {
    if (step < 3) job.luminaires[1].position->x_m -= 0.3;
    if (step == 3) job.luminaires[1].dim_pct = 60;
    if (step == 4) job.luminaires[0].dim_pct = 0;
    if (step == 5) job.luminaires[0].position->y_m = -1.3;
    picture(kept, job);
    expect_fresh(kept, job, step);
  }
}

// The only lamp of the garden: from left of the picture to right of it; half way a shed comes to shade the wall, and
// for one step the exposure is another.
TEST(NightSession, ALampDraggedThroughThePictureGivesThatOfAFreshSession) {
  NightSession kept = with_photograph();
  job::Job job = walled_job();
  job.luminaires.pop_back();
  job.luminaires[0].position->x_m = -9;
  picture(kept, job);
  const std::vector<std::uint8_t> dark = kept.rgba();
  for (int step = 0; step < 24; ++step) {
    job.luminaires[0].position->x_m += 1;
    if (step == 11) tests::add_area(job, "shed", job::GroundKind::building, tests::rectangle(2.5, -0.6, 3.5, -0.3), 1);
    if (step == 13) job.views[0].night.exposure_stops = 1;
    if (step == 14) job.views[0].night.exposure_stops = 0;
    picture(kept, job);
    expect_fresh(kept, job, step);
    if (step == 12) {
      EXPECT_NE(kept.rgba(), dark);
    }
  }
}

TEST(NightSession, TrialsAreNotInTheJob) {
  NightSession session = with_photograph();
  const job::Job job = walled_job();
  picture(session, job);
  const geometry::PixelPoint at = pixel_of({2.5, 0, 1.2});
  const double both_lx = *session.probe(at.x_px, at.y_px).value().lux;
  NightWish wish = wish_for("front");
  wish.lamps = {{"A", 0.0, {}}, {"nobody", 0.5, {}}};
  const NightFacts facts = picture(session, job, wish);
  EXPECT_EQ(facts.lamps[0].share, 0);
  EXPECT_LT(*session.probe(at.x_px, at.y_px).value().lux, 0.5 * both_lx);
  picture(session, job);
  EXPECT_EQ(*session.probe(at.x_px, at.y_px).value().lux, both_lx);
}

TEST(NightSession, WallBehindThePlansWallIsBroughtForward) {
  NightSession session = with_photograph();
  job::Job job = walled_job();
  job.plan.areas[0].outline = tests::rectangle(1, -0.3, 7, 5);
  const NightFacts facts = picture(session, job);
  ASSERT_FALSE(facts.remarks.empty());
  EXPECT_THAT(facts.remarks, ::testing::Contains(HasSubstr("0.3 m behind")));
  const geometry::PixelPoint at = pixel_of({4, 0, 1});
  EXPECT_GT(*session.probe(at.x_px, at.y_px).value().lux, 5);
}

TEST(NightSession, WhatIsMissingIsSaid) {
  NightSession session;
  const job::Job job = walled_job();
  EXPECT_EQ(session.picture(job, wish_for("front")).error().code, ErrorCode::not_found);
  EXPECT_EQ(session.probe(1, 1).error().code, ErrorCode::not_found);
  session = with_photograph();
  EXPECT_EQ(session.picture(job, wish_for("back")).error().code, ErrorCode::not_found);
  job::Job bare = job;
  bare.views[0].calibration.reset();
  EXPECT_EQ(session.picture(bare, wish_for("front")).error().code, ErrorCode::invalid);
  bare = job;
  bare.views[0].surfaces.clear();
  EXPECT_THAT(session.picture(bare, wish_for("front")).error().message, HasSubstr("outline a wall"));
  picture(session, job);
  EXPECT_EQ(session.probe(-1, 5).error().code, ErrorCode::invalid);
  EXPECT_EQ(session.probe(5, height_px).error().code, ErrorCode::invalid);
  EXPECT_EQ(session.probe(NAN, 5).error().code, ErrorCode::invalid);
}

}  // namespace
}  // namespace duskwire::study
