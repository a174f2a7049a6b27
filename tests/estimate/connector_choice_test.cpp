// SPDX-License-Identifier: Apache-2.0
#include "estimate/connector_choice.hpp"

#include <gtest/gtest.h>

namespace duskwire::estimate {
namespace {

std::vector<JointWire> wires(std::size_t count, double area_mm2 = 2.081) {
  return std::vector<JointWire>(count, JointWire{area_mm2, WireOwner::cable_from, "c"});
}

job::ConnectorItem connector(const char* id, std::uint32_t count_max, std::int64_t price_minor) {
  job::ConnectorItem item;
  item.id = id;
  item.fills = {{0.8, 3.4, 2, count_max, {}}};
  item.sealed = true;
  item.mechanically_held = true;
  item.price_minor = price_minor;
  return item;
}

job::Catalogue catalogue_of(std::vector<job::ConnectorItem> items) {
  job::Catalogue catalogue;
  catalogue.connectors = std::move(items);
  return catalogue;
}

TEST(ConnectorFit, CountsSparePorts) {
  const auto fit = connector_fit(connector("gel-5", 5, 100), wires(2));
  ASSERT_TRUE(fit);
  EXPECT_EQ(fit->pieces_per_conductor, 1u);
  EXPECT_EQ(fit->spare_ports, 3u);
}

TEST(ConnectorFit, RefusesASizeOutOfRange) {
  auto mixed = wires(2);
  mixed[1].area_mm2 = 5.26;
  EXPECT_FALSE(connector_fit(connector("gel-5", 5, 100), mixed));
  mixed[1].area_mm2 = 0.5;
  EXPECT_FALSE(connector_fit(connector("gel-5", 5, 100), mixed));
}

TEST(ConnectorFit, RefusesAnUnknownSizeAndASingleWire) {
  auto unknown = wires(3);
  unknown[2].area_mm2.reset();
  EXPECT_FALSE(connector_fit(connector("gel-5", 5, 100), unknown));
  EXPECT_FALSE(connector_fit(connector("gel-5", 5, 100), wires(1)));
}

// Every way to string pieces together by pigtails: k pieces of m ports lose 2 (k - 1) of them.
TEST(ConnectorFit, PiecesWithPigtailsAreTheFewestThatHoldAllWires) {
  for (std::uint32_t ports = 3; ports <= 8; ++ports) {
    for (std::size_t count = 2; count <= 40; ++count) {
      const auto fit = connector_fit(connector("gel", ports, 100), wires(count));
      ASSERT_TRUE(fit) << ports << ' ' << count;
      const std::size_t k = fit->pieces_per_conductor;
      EXPECT_EQ(fit->pigtails_per_conductor, k - 1);
      EXPECT_EQ(k * ports - 2 * (k - 1), count + fit->spare_ports);
      if (k > 1) {
        EXPECT_LT((k - 1) * ports - 2 * (k - 2), count) << "one piece fewer would do";
      }
    }
  }
}

TEST(ConnectorFit, TwoWireConnectorCannotBeStrungTogether) {
  EXPECT_FALSE(connector_fit(connector("butt", 2, 100), wires(3)));
}

TEST(ConnectorFit, TakesTheFillThatHoldsAllInFewestPieces) {
  job::ConnectorItem item = connector("gel", 3, 100);
  item.fills.push_back({0.8, 2.2, 2, 6, {}});
  EXPECT_EQ(connector_fit(item, wires(6))->pieces_per_conductor, 1u);
  EXPECT_EQ(connector_fit(item, wires(6, 3.309))->pieces_per_conductor, 4u);
}

TEST(ChooseConnector, TakesTheCheapestThatIsSealedHeldAndFits) {
  job::ConnectorItem unsealed = connector("unsealed", 6, 10);
  unsealed.sealed = false;
  job::ConnectorItem loose = connector("loose", 6, 20);
  loose.mechanically_held = false;
  const auto catalogue =
      catalogue_of({connector("dear", 6, 400), unsealed, loose, connector("small", 2, 30), connector("right", 4, 300)});
  const auto choice = choose_connector(wires(4), catalogue);
  ASSERT_TRUE(choice);
  EXPECT_EQ(choice->item->id, "right");
  EXPECT_EQ(choice->pieces, 2u);
}

TEST(ChooseConnector, HubBoxForBothConductorsCountsOnce) {
  job::ConnectorItem box = connector("box", 8, 500);
  box.serves_both_conductors = true;
  const job::Catalogue catalogue = catalogue_of({connector("gel-6", 6, 300), box});
  const auto choice = choose_connector(wires(5), catalogue);
  ASSERT_TRUE(choice);
  EXPECT_EQ(choice->item->id, "box");  // 500 once against 300 twice
  EXPECT_EQ(choice->pieces, 1u);
}

TEST(ChooseConnector, OnePieceGoesBeforeCheaperPigtails) {
  const job::Catalogue catalogue = catalogue_of({connector("gel-5", 5, 10), connector("gel-6", 6, 900)});
  const auto choice = choose_connector(wires(6), catalogue);
  ASSERT_TRUE(choice);
  EXPECT_EQ(choice->item->id, "gel-6");
}

TEST(ChooseConnector, SaysHowManyPiecesWherePigtailsAreNeeded) {
  const job::Catalogue catalogue = catalogue_of({connector("gel-5", 5, 100)});
  const auto choice = choose_connector(wires(9), catalogue);
  ASSERT_TRUE(choice);
  EXPECT_EQ(choice->fit.pieces_per_conductor, 3u);
  EXPECT_EQ(choice->fit.pigtails_per_conductor, 2u);
  EXPECT_EQ(choice->pieces, 6u);
}

TEST(ChooseConnector, SaysThatNoneFits) {
  const job::Catalogue catalogue = catalogue_of({connector("gel-5", 5, 100)});
  EXPECT_FALSE(choose_connector(wires(3, 8.37), catalogue));
  const job::Catalogue nothing;
  EXPECT_FALSE(choose_connector(wires(3), nothing));
}

TEST(ChooseConnector, OfEqualOnesTheFirstByIdWhateverTheOrder) {
  const auto first = connector("a", 4, 100);
  const auto second = connector("b", 4, 100);
  const job::Catalogue catalogue = catalogue_of({second, first});
  EXPECT_EQ(choose_connector(wires(3), catalogue)->item->id, "a");
}

}  // namespace
}  // namespace duskwire::estimate
