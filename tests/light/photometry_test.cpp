// SPDX-License-Identifier: Apache-2.0
// Sums over a distribution against closed forms (values.md 5.3, 5.4, 5.6).
#include "light/photometry.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "light/photometry_files.hpp"
#include "light/zones.hpp"

namespace duskwire::light {
namespace {

double lambert(double g) { return std::max(1000 * std::cos(g), 0.0); }

// Full angles of cos^n: n = 1 120 and 168.52, n = 4 65.53 and 111.56, n = 20 30.00 and 53.94 degrees.
TEST(Photometry, BeamAndFieldAnglesOfCosinePowers) {
  const auto expect = [](const Distribution& d, double beam_deg, double field_deg) {
    const Photometry p = photometry_of(d);
    for (const BeamAngles& angles : p.beams) {
      EXPECT_NEAR(angles.beam_deg.value(), beam_deg, 0.01);
      EXPECT_NEAR(angles.field_deg.value(), field_deg, 0.02);
    }
  };
  expect(one_plane(1, 90, lambert), 120, 168.52);
  expect(one_plane(1, 90, [](double g) { return std::pow(std::cos(g), 4); }), 65.53, 111.56);
  expect(one_plane(1, 90, [](double g) { return std::pow(std::cos(g), 20); }), 30.00, 53.94);
}

TEST(Photometry, AnUplightHasItsAnglesAboutTheZenith) {
  const Photometry p =
      photometry_of(reference_intensities("photometry/made-here/uplight-lambert-500cd-90-180.ies").distribution);
  EXPECT_NEAR(p.beams[0].beam_deg.value(), 120, 0.01);
  EXPECT_NEAR(p.up_pct, 100, 1e-9);
  EXPECT_EQ(p.peak_gamma_deg, 180);
}

TEST(Photometry, AnEvenGlowHasNoBeamAngle) {
  const Photometry p = photometry_of(one_plane(45, 180, [](double) { return 100.0; }));
  EXPECT_FALSE(p.beams[0].beam_deg);
  EXPECT_NEAR(p.down_pct, 50, 1e-9);
}

// 10 degree zonal constants, sr.
TEST(Photometry, ZonalConstantsAreThoseOfPrint) {
  const double printed[] = {0.0955, 0.2835, 0.4629, 0.6282, 0.7744, 0.8972, 0.9926, 1.0579, 1.0911};
  for (int i = 0; i < 9; ++i) EXPECT_NEAR(zonal_constant_sr(10.0 * i, 10.0 * i + 10), printed[i], 5e-5) << i;
  const Photometry p = photometry_of(one_plane(45, 180, [](double) { return 1.0; }));
  ASSERT_EQ(p.zones.size(), 18u);
  for (int i = 0; i < 9; ++i) EXPECT_NEAR(p.zones[i].flux_lm, printed[i], 5e-5) << i;
  EXPECT_NEAR(p.zones.back().so_far_pct, 100, 1e-9);
}

TEST(Photometry, ZonesAddUpToTheFlux) {
  for (const char* name : {"ldt/isym0-measured-dff89.ldt", "ies/c-quadrant-0-90-updown-1991.ies",
                           "ldt/isym4-two-lamp-sets-mc144.ldt", "ies/c-full-0-360-measured-2002-mW.ies"}) {
    const Photometry p = photometry_of(reference_intensities(std::string("photometry/") + name).distribution);
    double zones_lm = 0;
    for (const ZonalRow& row : p.zones) zones_lm += row.flux_lm;
    double lcs_lm = 0;
    for (const LcsFlux& zone : p.bug.zones) lcs_lm += zone.flux_lm;
    EXPECT_NEAR(zones_lm, p.flux_lm, 1e-9 * p.flux_lm) << name;
    EXPECT_NEAR(lcs_lm, p.flux_lm, 1e-9 * p.flux_lm) << name;
  }
}

// Type B: the peak straight ahead is gamma 0, and the zones of the turned table are near the exact flux.
TEST(Photometry, TypeBIsTurnedIntoTheFrameOfTypeC) {
  const Photometry p =
      photometry_of(reference_intensities("photometry/made-here/type-b-lambert-facing-origin.ies").distribution);
  EXPECT_NEAR(p.peak_gamma_deg, 0, 1e-9);
  double zones_lm = 0;
  for (const ZonalRow& row : p.zones) zones_lm += row.flux_lm;
  EXPECT_NEAR(zones_lm, p.flux_lm, 1e-3 * p.flux_lm);
  EXPECT_NEAR(p.down_pct, 100, 0.3);
}

// A Lambertian splits 25 / 50 / 21.985 / 3.015 %, half of each forward; the solid angles are those of an even glow.
TEST(BugRating, ZonesOfALambertianAndOfAnEvenGlow) {
  const BugRating lambertian = bug_rating(one_plane(0.5, 90, lambert));
  const double shares_pct[] = {25, 50, 21.985, 3.015};
  for (int i = 0; i < 4; ++i) {
    EXPECT_NEAR(lambertian.zones[i].share_pct, shares_pct[i] / 2, 0.003) << i;
    EXPECT_NEAR(lambertian.zones[i + 4].share_pct, shares_pct[i] / 2, 0.003) << i;
  }
  const BugRating even = bug_rating(one_plane(45, 180, [](double) { return 1.0; }));
  const double full_sr[] = {0.8418, 2.2998, 2.0505, 1.0911};
  for (int i = 0; i < 4; ++i) EXPECT_NEAR(2 * even.zones[i].flux_lm, full_sr[i], 5e-5) << i;
  EXPECT_NEAR(even.zones[8].flux_lm, 1.0911, 5e-5);
  EXPECT_NEAR(even.zones[9].flux_lm, 5.1921, 5e-5);
}

// 3141.6 lm down: BL 392.7 (B1), BM 785.4 (B1), BH 345.3 (B1); no light up; FH 345.3 (G0), FVH 47.4 (G1), type V.
TEST(BugRating, RatesALambertianByItsWorstZone) {
  const BugRating rating = bug_rating(one_plane(0.5, 90, lambert));
  EXPECT_TRUE(rating.even_all_round);
  EXPECT_EQ(rating.backlight, 1u);
  EXPECT_EQ(rating.uplight, 0u);
  EXPECT_EQ(rating.glare, 1u);
}

TEST(BugRating, IsFiveAboveTheLastLimitAndNamesWhatIsFromMemory) {
  const BugRating rating = bug_rating(one_plane(45, 180, [](double) { return 200.0; }));  // UH 1038 lm
  EXPECT_EQ(rating.uplight, 5u);
  for (const BugLimit& limit : rating.limits) {
    EXPECT_EQ(limit.status == SourceStatus::from_memory, limit.letter == BugLetter::glare);
  }
}

TEST(BugRating, ForwardIsTheHalfAboutC0) {
  const Distribution d{PhotometricType::c, {0, 89, 91, 269, 271, 360}, {0, 90}, {9, 9, 9, 9, 0, 0, 0, 0, 9, 9, 9, 9}};
  const BugRating rating = bug_rating(d);
  EXPECT_FALSE(rating.even_all_round);
  EXPECT_GT(rating.zones[0].flux_lm, 50 * rating.zones[4].flux_lm);
}

}  // namespace
}  // namespace duskwire::light
