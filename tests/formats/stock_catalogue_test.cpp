// SPDX-License-Identifier: Apache-2.0
// The stock catalogue is whole and plausible: every kind in several sizes, every number inside the range that the trade
// knows (common practice, no source), every transformer's rise and every fill table consistent in itself.
#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <map>
#include <set>
#include <sstream>

#include "formats/catalogue_file.hpp"

namespace duskwire::formats {
namespace {

using job::LampKind;
using job::LuminaireKind;

const job::Catalogue& stock() {
  static const job::Catalogue catalogue = [] {
    std::ifstream file(std::string(DUSKWIRE_SOURCE_DIR) + "/data/catalogue/stock.json");
    std::stringstream text;
    text << file.rdbuf();
    const ReadCatalogue read = read_catalogue(text.str());
    for (const Problem& problem : read.problems) ADD_FAILURE() << problem.pointer << ": " << problem.message;
    return read.catalogue.value_or(job::Catalogue{});
  }();
  return catalogue;
}

struct Range {
  double low = 0;
  double high = 0;
  [[nodiscard]] bool holds(double value) const { return value >= low && value <= high; }
};

// Common practice, no source: what the goods of the trade lie between.
struct KindRanges {
  std::size_t least_items;
  Range power_w, power_va, flux_lm, beam_deg, price, labour_min;
};
const std::map<LuminaireKind, KindRanges> ranges = {
    {LuminaireKind::path, {3, {2, 4}, {3, 6}, {80, 200}, {360, 360}, {60, 180}, {20, 30}}},
    {LuminaireKind::bullet, {20, {3, 9}, {4, 13}, {180, 700}, {10, 60}, {70, 200}, {20, 30}}},
    {LuminaireKind::wall_wash, {3, {3, 10}, {4, 14}, {200, 800}, {60, 110}, {80, 220}, {20, 30}}},
    {LuminaireKind::well, {3, {3, 12}, {4, 17}, {200, 900}, {15, 60}, {110, 320}, {40, 75}}},
    {LuminaireKind::tree_downlight, {3, {4, 8}, {5, 11}, {250, 600}, {24, 60}, {90, 240}, {60, 120}}},
    {LuminaireKind::step, {3, {0.7, 3}, {1, 4.5}, {15, 120}, {90, 180}, {40, 130}, {30, 60}}},
    {LuminaireKind::strip, {3, {1.5, 5}, {2, 7}, {60, 300}, {120, 120}, {60, 150}, {30, 45}}},
    {LuminaireKind::bollard, {3, {5, 12}, {7, 17}, {300, 900}, {180, 360}, {150, 450}, {45, 75}}},
    {LuminaireKind::underwater, {3, {3, 9}, {4, 13}, {200, 600}, {15, 60}, {120, 400}, {60, 120}}},
    {LuminaireKind::retrofit_lamp, {6, {1.5, 9}, {1.5 / 0.9, 9 / 0.5}, {100, 600}, {15, 360}, {8, 35}, {5, 10}}},
    {LuminaireKind::halogen_lamp, {4, {10, 50}, {10, 50}, {100, 900}, {12, 360}, {4, 10}, {5, 5}}},
};

TEST(StockLuminaires, EveryKindComesInSeveralSizesInsideItsRange) {
  std::map<LuminaireKind, std::size_t> count;
  std::map<LuminaireKind, std::set<double>> powers_w;
  for (const job::LuminaireItem& item : stock().luminaires) {
    const KindRanges& range = ranges.at(item.kind);
    EXPECT_TRUE(range.power_w.holds(item.power_w)) << item.id;
    EXPECT_TRUE(range.power_va.holds(item.power_va)) << item.id;
    EXPECT_TRUE(range.flux_lm.holds(item.flux_lm)) << item.id;
    EXPECT_TRUE(range.beam_deg.holds(item.beam_deg)) << item.id;
    EXPECT_TRUE(range.price.holds(static_cast<double>(item.price_minor) / 100)) << item.id;
    EXPECT_TRUE(range.labour_min.holds(item.labour_min)) << item.id;
    ++count[item.kind];
    powers_w[item.kind].insert(item.power_w);
  }
  for (const auto& [kind, range] : ranges) {
    EXPECT_GE(count[kind], range.least_items) << static_cast<int>(kind);
    EXPECT_GE(powers_w[kind].size(), 3u) << static_cast<int>(kind);
  }
}

TEST(StockLuminaires, BulletsComeInEveryBeam) {
  std::map<double, std::set<double>> beams_by_power;
  for (const job::LuminaireItem& item : stock().luminaires) {
    if (item.kind == LuminaireKind::bullet) beams_by_power[item.power_w].insert(item.beam_deg);
  }
  for (const auto& [power_w, beams_deg] : beams_by_power) {
    EXPECT_EQ(beams_deg, (std::set<double>{10, 15, 24, 36, 60})) << power_w;
  }
}

TEST(StockLuminaires, ApparentPowerIsAtLeastThePower) {
  for (const job::LuminaireItem& item : stock().luminaires) {
    EXPECT_GE(item.power_va, item.power_w) << item.id;
    const double power_factor = item.power_w / item.power_va;
    EXPECT_GE(power_factor, item.lamp == LampKind::filament ? 1 : 0.5) << item.id;
    EXPECT_LE(power_factor, item.lamp == LampKind::filament ? 1 : 0.9) << item.id;
  }
}

TEST(StockLuminaires, VoltsAreInOrder) {
  for (const job::LuminaireItem& item : stock().luminaires) {
    EXPECT_LT(item.window_min_v, item.window_max_v) << item.id;
    EXPECT_LE(item.window_min_v, item.rated_v) << item.id;
    EXPECT_GE(item.window_max_v, item.rated_v) << item.id;
    EXPECT_LT(item.v_cut_off, item.v_regulation_min) << item.id;
    EXPECT_LE(item.v_regulation_min, item.window_min_v) << item.id;
    EXPECT_EQ(item.lamp == LampKind::filament, item.v_cut_off == 0) << item.id;
  }
}

TEST(StockLuminaires, EachHasALeadAndOnlyWhatIsMadeForWaterIsListedForIt) {
  for (const job::LuminaireItem& item : stock().luminaires) {
    EXPECT_GT(item.lead_length_m, 0) << item.id;
    EXPECT_GT(item.lead_area_mm2, 0) << item.id;
    EXPECT_EQ(item.underwater_listed, item.kind == LuminaireKind::underwater) << item.id;
  }
}

// Volts lost from no load to full rating on one tap, all outputs loaded alike.
double rise_pct(const job::TransformerItem& item, double tap_v) {
  const double total_a = item.rating_va / tap_v;
  return 100 * (item.r_own_ohm * total_a / item.output_count + item.r_shared_ohm * total_a) / tap_v;
}

TEST(StockTransformers, SizesAndOutputsAreThoseOfTheTrade) {
  const std::map<double, std::uint32_t> outputs = {{75, 1}, {150, 1}, {300, 1}, {600, 2}, {900, 3}, {1200, 4}};
  const std::map<double, Range> prices = {{75, {90, 180}},   {150, {130, 300}}, {300, {200, 450}},
                                          {600, {350, 700}}, {900, {500, 950}}, {1200, {700, 1500}}};
  std::set<double> ratings_va;
  for (const job::TransformerItem& item : stock().transformers) {
    ASSERT_TRUE(outputs.contains(item.rating_va)) << item.id;
    EXPECT_EQ(item.output_count, outputs.at(item.rating_va)) << item.id;
    EXPECT_TRUE(prices.at(item.rating_va).holds(static_cast<double>(item.price_minor) / 100)) << item.id;
    EXPECT_LE(item.output_limit_a, 25) << item.id;
    EXPECT_NEAR(item.output_limit_a * 12 * item.output_count, item.rating_va, 1e-9) << item.id;
    ratings_va.insert(item.rating_va);
  }
  EXPECT_EQ(ratings_va.size(), outputs.size());
}

TEST(StockTransformers, RiseIsThreeToEightPercentOnTheTapsFrom12To15V) {
  for (const job::TransformerItem& item : stock().transformers) {
    for (const double tap_v : item.taps_v) {
      if (tap_v > 15) continue;
      EXPECT_TRUE((Range{3, 8}.holds(rise_pct(item, tap_v)))) << item.id << " at " << tap_v;
    }
  }
}

TEST(StockTransformers, EfficiencyFollowsFromItsLosses) {
  for (const job::TransformerItem& item : stock().transformers) {
    EXPECT_TRUE((Range{0.80, 0.92}.holds(item.efficiency))) << item.id;
    const double copper_w = item.rating_va * rise_pct(item, 12) / 100;
    EXPECT_NEAR(item.efficiency, item.rating_va / (item.rating_va + copper_w + item.core_loss_w), 0.002) << item.id;
  }
}

TEST(StockTransformers, TapsRunFrom12And15AndSomeGoHigher) {
  std::set<double> highest_v;
  for (const job::TransformerItem& item : stock().transformers) {
    EXPECT_TRUE(std::is_sorted(item.taps_v.begin(), item.taps_v.end())) << item.id;
    ASSERT_GE(item.taps_v.size(), 3u) << item.id;
    EXPECT_EQ(item.taps_v[0], 12) << item.id;
    highest_v.insert(item.taps_v.back());
  }
  EXPECT_TRUE(highest_v.contains(15) && highest_v.contains(18) && highest_v.contains(22));
}

TEST(StockTransformers, OneIsListedForPoolsAndStaysBelowTheContactLimit) {
  const auto& items = stock().transformers;
  const auto pool = std::find_if(items.begin(), items.end(), [](const auto& item) { return item.pool_listed; });
  ASSERT_NE(pool, items.end());
  EXPECT_LT(pool->taps_v.back(), 15);
}

TEST(StockCables, ThickerCarriesMoreAndCostsMore) {
  std::vector<job::CableItem> cables = stock().cables;
  ASSERT_EQ(cables.size(), 10u);
  for (const bool by_gauge : {true, false}) {
    std::vector<job::CableItem> family;
    std::copy_if(cables.begin(), cables.end(), std::back_inserter(family),
                 [&](const job::CableItem& item) { return item.gauge_awg.has_value() == by_gauge; });
    for (std::size_t i = 1; i < family.size(); ++i) {
      EXPECT_GT(family[i].area_mm2, family[i - 1].area_mm2);
      EXPECT_LT(family[i].ohm_per_m_20c, family[i - 1].ohm_per_m_20c);
      EXPECT_GT(family[i].ampacity_a, family[i - 1].ampacity_a);
      EXPECT_GT(family[i].outer_diameter_mm, family[i - 1].outer_diameter_mm);
      EXPECT_GT(family[i].price_minor_per_m, family[i - 1].price_minor_per_m);
    }
  }
}

TEST(StockConnectors, FillTablesAreSane) {
  for (const job::ConnectorItem& item : stock().connectors) {
    ASSERT_FALSE(item.fills.empty()) << item.id;
    for (const job::ConnectorFill& fill : item.fills) {
      EXPECT_LT(fill.area_min_mm2, fill.area_max_mm2) << item.id;
      EXPECT_GE(fill.count_min, 2u) << item.id;
      EXPECT_GE(fill.count_max, fill.count_min) << item.id;
    }
    EXPECT_GT(item.contact_ohm, 0) << item.id;
    EXPECT_LE(item.contact_ohm, 0.005) << item.id;
  }
}

// Wires of 18 ... 8 AWG and 1.5 ... 6 mm2 meet in twos, threes and fives: something sealed and held takes each.
TEST(StockConnectors, EverySizeHasASealedAndHeldConnector) {
  for (const job::CableItem& cable : stock().cables) {
    for (const std::uint32_t wires : {2u, 3u, 4u}) {
      const bool held =
          std::any_of(stock().connectors.begin(), stock().connectors.end(), [&](const job::ConnectorItem& item) {
            return item.sealed && item.mechanically_held &&
                   std::any_of(item.fills.begin(), item.fills.end(), [&](const job::ConnectorFill& fill) {
                     return cable.area_mm2 >= fill.area_min_mm2 && cable.area_mm2 <= fill.area_max_mm2 &&
                            wires >= fill.count_min && wires <= fill.count_max;
                   });
          });
      EXPECT_TRUE(held) << wires << " x " << cable.id;
    }
  }
}

TEST(StockConnectors, IndoorAndPierceKindsAreThereToBeFoundWrong) {
  const job::ConnectorItem* nut = job::find_connector(stock(), "wire-nut-small");
  const job::ConnectorItem* pierce = job::find_connector(stock(), "pierce-tap");
  ASSERT_TRUE(nut && pierce);
  EXPECT_FALSE(nut->sealed);
  EXPECT_FALSE(pierce->sealed);
  EXPECT_FALSE(pierce->mechanically_held);
}

TEST(StockRest, ControlsAndSundriesOfEveryKindArePriced) {
  std::set<job::ControlKind> controls;
  for (const job::ControlItem& item : stock().controls) {
    controls.insert(item.kind);
    EXPECT_GT(item.price_minor, 0) << item.id;
  }
  EXPECT_EQ(controls.size(), 5u);
  std::set<job::SundryKind> sundries;
  for (const job::SundryItem& item : stock().sundries) {
    sundries.insert(item.kind);
    EXPECT_GT(item.price_minor, 0) << item.id;
    EXPECT_TRUE(item.unit == "piece" || item.unit == "m") << item.id;
  }
  EXPECT_EQ(sundries.size(), 8u);
}

}  // namespace
}  // namespace duskwire::formats
