// SPDX-License-Identifier: Apache-2.0
// The light of catalogue items: every stock luminaire has one, with the flux that it states.
#include "study/lamp_distribution.hpp"

#include <gtest/gtest.h>

#include "formats/catalogue_file.hpp"
#include "formats/embedded.hpp"
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

TEST(LampDistribution, EveryStockLuminaireGivesTheFluxThatItStates) {
  EXPECT_GE(stock().luminaires.size(), 80u);
  for (const job::LuminaireItem& item : stock().luminaires) {
    EXPECT_GT(item.flux_lm, 0) << item.id;
    EXPECT_NEAR(light::flux_lm(distribution_of(item)), item.flux_lm, 0.005 * item.flux_lm) << item.id;
    EXPECT_TRUE(light_findings(item).empty()) << item.id;
  }
}

TEST(LampDistribution, StockSpotsAndFloodsHaveTheBeamThatTheyState) {
  for (const job::LuminaireItem& item : stock().luminaires) {
    if (shape_of(item) != BeamShape::spot && shape_of(item) != BeamShape::flood) continue;
    const auto beam_deg = light::beam_angles(distribution_of(item), 0, false).beam_deg;
    EXPECT_NEAR(beam_deg.value(), item.beam_deg, 0.01 * item.beam_deg) << item.id;
  }
}

TEST(LampDistribution, LightsForPathsAndStepsSendNothingUp) {
  for (const job::LuminaireItem& item : stock().luminaires) {
    if (item.kind != LuminaireKind::path && item.kind != LuminaireKind::step && item.kind != LuminaireKind::bollard)
      continue;
    EXPECT_EQ(light::photometry_of(distribution_of(item)).up_pct, 0) << item.id;
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

}  // namespace
}  // namespace duskwire::study
