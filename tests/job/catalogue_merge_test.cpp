// SPDX-License-Identifier: Apache-2.0
#include "job/catalogue_merge.hpp"

#include <gtest/gtest.h>

namespace duskwire::job {
namespace {

Catalogue stock() {
  Catalogue stock;
  stock.luminaires = {{.id = "path-2w", .title = "Path", .price_minor = 7000}, {.id = "well-4w", .price_minor = 9000}};
  stock.cables = {{.id = "12awg-2", .price_minor_per_m = 160}};
  stock.sundries = {{.id = "stake", .price_minor = 300}};
  return stock;
}

std::vector<std::string> ids(const std::vector<LuminaireItem>& items) {
  std::vector<std::string> ids;
  for (const LuminaireItem& item : items) ids.push_back(item.id);
  return ids;
}

TEST(CatalogueMerge, AnEmptyShopLeavesTheStockAsItIs) {
  const MergedCatalogue merged = merge_catalogue(stock(), {});
  EXPECT_EQ(merged.catalogue, stock());
  EXPECT_TRUE(merged.problems.empty());
}

TEST(CatalogueMerge, AShopsItemReplacesTheStocksAtItsPlace) {
  Catalogue shop;
  shop.luminaires = {{.id = "path-2w", .title = "Ours", .price_minor = 8500}};
  const MergedCatalogue merged = merge_catalogue(stock(), shop);
  EXPECT_EQ(ids(merged.catalogue.luminaires), (std::vector<std::string>{"path-2w", "well-4w"}));
  EXPECT_EQ(merged.catalogue.luminaires[0], shop.luminaires[0]);
  EXPECT_EQ(merged.catalogue.luminaires[1], stock().luminaires[1]);
}

TEST(CatalogueMerge, NewItemsFollowAtTheEnd) {
  Catalogue shop;
  shop.luminaires = {{.id = "moon-6w"}, {.id = "well-4w", .price_minor = 1}};
  shop.transformers = {{.id = "ours-100va"}};
  const MergedCatalogue merged = merge_catalogue(stock(), shop);
  EXPECT_EQ(ids(merged.catalogue.luminaires), (std::vector<std::string>{"path-2w", "well-4w", "moon-6w"}));
  EXPECT_EQ(merged.catalogue.luminaires[1].price_minor, 1);
  ASSERT_EQ(merged.catalogue.transformers.size(), 1u);
}

TEST(CatalogueMerge, RemovedItemsGoWhateverTheirKind) {
  const MergedCatalogue merged = merge_catalogue(stock(), {}, {"well-4w", "stake"});
  EXPECT_EQ(ids(merged.catalogue.luminaires), (std::vector<std::string>{"path-2w"}));
  EXPECT_TRUE(merged.catalogue.sundries.empty());
  EXPECT_EQ(merged.catalogue.cables.size(), 1u);
  EXPECT_TRUE(merged.problems.empty());
}

TEST(CatalogueMerge, ARemovalThatNothingAnswersIsTold) {
  const MergedCatalogue merged = merge_catalogue(stock(), {}, {"stake", "wel-4w"});
  ASSERT_EQ(merged.problems.size(), 1u);
  EXPECT_EQ(merged.problems[0].severity, Severity::warning);
  EXPECT_EQ(merged.problems[0].pointer, "/remove/1");
  EXPECT_EQ(merged.problems[0].value, "wel-4w");
}

TEST(CatalogueMerge, AnotherCurrencyLeavesStockItemsWithoutPrice) {
  Catalogue shop;
  shop.currency = "EUR";
  shop.luminaires = {{.id = "path-2w", .price_minor = 6500}};
  const MergedCatalogue merged = merge_catalogue(stock(), shop);
  EXPECT_EQ(merged.catalogue.currency, "EUR");
  EXPECT_EQ(merged.catalogue.luminaires[0].price_minor, 6500);
  EXPECT_EQ(merged.catalogue.luminaires[1].price_minor, 0);
  EXPECT_EQ(merged.catalogue.cables[0].price_minor_per_m, 0);
  ASSERT_EQ(merged.problems.size(), 1u);
  EXPECT_EQ(merged.problems[0].pointer, "/currency");
}

}  // namespace
}  // namespace duskwire::job
