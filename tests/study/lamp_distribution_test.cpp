// SPDX-License-Identifier: Apache-2.0
// The light of catalogue items: every stock luminaire has one, with the flux that it states.
#include "study/lamp_distribution.hpp"

#include <gtest/gtest.h>

#include "formats/catalogue_file.hpp"
#include "formats/embedded.hpp"
#include "light/beams.hpp"
#include "light/lm63_writer.hpp"
#include "light/photometry.hpp"

namespace duskwire::study {
namespace {

using job::BeamShape;
using job::LuminaireKind;

const job::Catalogue& stock() {
  static const job::Catalogue catalogue = *formats::read_catalogue(formats::embedded_stock_catalogue()).catalogue;
  return catalogue;
}

job::LuminaireItem item_of(LuminaireKind kind, double beam_deg, double flux_lm) {
  job::LuminaireItem item;
  item.kind = kind;
  item.beam_deg = beam_deg;
  item.flux_lm = flux_lm;
  return item;
}

// An aimed file whose light goes up in its own frame: 500 cd at the zenith, as a well light is measured.
std::string uplight_text() {
  light::Distribution d;
  d.horizontal_deg = {0, 90, 180, 270, 360};
  d.vertical_deg = {90, 180};
  d.intensity_cd = {10, 500, 20, 500, 10, 500, 40, 500, 10, 500};
  return light::write_lm63(light::intensity_file_from(d, "uplight", 5));
}

TEST(LampDistribution, EveryStockLuminaireGivesTheFluxThatItStates) {
  EXPECT_GE(stock().luminaires.size(), 80u);
  for (const job::LuminaireItem& item : stock().luminaires) {
    EXPECT_GT(item.flux_lm, 0) << item.id;
    EXPECT_NEAR(light::flux_lm(distribution_of(item)), item.flux_lm, 0.005 * item.flux_lm) << item.id;
    EXPECT_NE(item.beam_shape, BeamShape::by_kind) << item.id;
    EXPECT_TRUE(light_findings(item).empty()) << item.id;
  }
}

TEST(LampDistribution, StockSpotsAndFloodsHaveTheBeamThatTheyState) {
  for (const job::LuminaireItem& item : stock().luminaires) {
    if (item.beam_shape != BeamShape::spot && item.beam_shape != BeamShape::flood) continue;
    const auto beam_deg = light::beam_angles(distribution_of(item), 0, false).beam_deg;
    EXPECT_NEAR(beam_deg.value(), item.beam_deg, 0.01 * item.beam_deg) << item.id;
  }
}

TEST(LampDistribution, LightsForPathsAndStepsSendNothingUp) {
  for (const job::LuminaireItem& item : stock().luminaires) {
    if (item.kind != LuminaireKind::path && item.kind != LuminaireKind::step && item.kind != LuminaireKind::bollard)
      continue;
    EXPECT_NEAR(light::photometry_of(distribution_of(item)).up_pct, 0, 1e-9) << item.id;
  }
}

TEST(LampDistribution, TheShapeFollowsTheKindWhereTheItemSaysNone) {
  EXPECT_EQ(shape_of(item_of(LuminaireKind::path, 360, 100)), BeamShape::ring);
  EXPECT_EQ(shape_of(item_of(LuminaireKind::bollard, 180, 100)), BeamShape::half_ring);
  EXPECT_EQ(shape_of(item_of(LuminaireKind::bollard, 360, 100)), BeamShape::ring);
  EXPECT_EQ(shape_of(item_of(LuminaireKind::wall_wash, 90, 100)), BeamShape::wash);
  EXPECT_EQ(shape_of(item_of(LuminaireKind::bullet, 24, 100)), BeamShape::spot);
  EXPECT_EQ(shape_of(item_of(LuminaireKind::retrofit_lamp, 360, 100)), BeamShape::all_round);
  EXPECT_EQ(shape_of(item_of(LuminaireKind::well, 60, 100)), BeamShape::flood);
}

TEST(LampDistribution, AnItemWithoutBeamOrLumensSaysWhatIsTaken) {
  const Problems findings = light_findings(item_of(LuminaireKind::bullet, 0, 0));
  ASSERT_EQ(findings.size(), 2u);
  EXPECT_EQ(findings[0].pointer, "/flux_lm");
  EXPECT_EQ(findings[1].pointer, "/beam_deg");
  EXPECT_EQ(light::flux_lm(distribution_of(item_of(LuminaireKind::bullet, 0, 0))), 0);
}

TEST(LampDistribution, AnIntensityFileGoesBeforeBeamAndLumens) {
  job::LuminaireItem item = item_of(LuminaireKind::path, 360, 100);
  item.intensity_file = light::write_lm63(light::intensity_file_from(light::spot_beam(30, 777), "x", 5));
  EXPECT_NEAR(light::flux_lm(distribution_of(item)), 777, 0.01);
}

TEST(LampDistribution, AFileMeasuredLookingUpFollowsTheAim) {
  job::LuminaireItem item = item_of(LuminaireKind::well, 30, 100);
  item.intensity_file = uplight_text();
  const light::Distribution d = distribution_of(item);
  EXPECT_EQ(light::intensity_cd(d, 0, 0), 500);
  EXPECT_EQ(light::intensity_cd(d, 0, 90), 10);
  // A half turn about C 0 swaps C 90 and C 270.
  EXPECT_EQ(light::intensity_cd(d, 90, 90), 40);
  EXPECT_EQ(light::intensity_cd(d, 270, 90), 20);
  ASSERT_EQ(light_findings(item).size(), 1u);
  item.kind = LuminaireKind::path;
  EXPECT_EQ(light::intensity_cd(distribution_of(item), 0, 180), 500);
}

TEST(LampDistribution, AFileThatCannotBeReadLeavesTheBeam) {
  job::LuminaireItem item = item_of(LuminaireKind::bullet, 30, 300);
  item.intensity_file = "IESNA91\nTILT=NONE\n1 2 3\n";
  EXPECT_NEAR(light::flux_lm(distribution_of(item)), 300, 0.01);
  EXPECT_TRUE(has_errors(light_findings(item)));
}

}  // namespace
}  // namespace duskwire::study
