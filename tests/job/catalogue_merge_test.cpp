// SPDX-License-Identifier: Apache-2.0
#include "job/catalogue_merge.hpp"

#include <gtest/gtest.h>

namespace duskwire::job {
namespace {

LuminaireItem lamp(const std::string& id, std::int64_t price_minor) {
  LuminaireItem item;
  item.id = id;
  item.price_minor = price_minor;
  return item;
}

Catalogue stock() {
  Catalogue stock;
  stock.luminaires = {lamp("path-2w", 7000), lamp("well-4w", 9000)};
  stock.cables.resize(1);
  stock.cables[0].id = "12awg-2";
  stock.cables[0].price_minor_per_m = 160;
  stock.sundries.resize(1);
  stock.sundries[0].id = "stake";
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
  shop.luminaires = {lamp("path-2w", 8500)};
  shop.luminaires[0].title = "Ours";
  const MergedCatalogue merged = merge_catalogue(stock(), shop);
  EXPECT_EQ(ids(merged.catalogue.luminaires), (std::vector<std::string>{"path-2w", "well-4w"}));
  EXPECT_EQ(merged.catalogue.luminaires[0], shop.luminaires[0]);
  EXPECT_EQ(merged.catalogue.luminaires[1], stock().luminaires[1]);
}

TEST(CatalogueMerge, NewItemsFollowAtTheEnd) {
  Catalogue shop;
  shop.luminaires = {lamp("moon-6w", 2), lamp("well-4w", 1)};
  shop.transformers.resize(1);
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
  shop.luminaires = {lamp("path-2w", 6500)};
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
