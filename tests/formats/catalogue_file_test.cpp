// SPDX-License-Identifier: Apache-2.0
#include "formats/catalogue_file.hpp"

#include <gtest/gtest.h>

#include "formats/documents.hpp"

namespace duskwire::formats {
namespace {

constexpr const char* shop = R"({
  "format": "duskwire-catalogue", "version": 1, "currency": "EUR", "own": "kept",
  "cables": [{"id": "2.5mm2-2", "area_mm2": 2.5, "ohm_per_m_20c": 0.00741, "price_minor_per_m": 190}],
  "remove": ["path-2w", "halogen-mr16-50w-12"]
})";

TEST(CatalogueFile, TheStockIsReadWithoutARemark) {
  const ReadCatalogue read = read_catalogue(project_file("data/catalogue/stock.json"));
  ASSERT_TRUE(read.catalogue) << told(read.problems);
  EXPECT_TRUE(read.problems.empty()) << told(read.problems);
  EXPECT_FALSE(read.catalogue->luminaires.empty());
  EXPECT_TRUE(read.remove.empty());
}

TEST(CatalogueFile, AShopsFileMayBeSmall) {
  const ReadCatalogue read = read_catalogue(shop);
  ASSERT_TRUE(read.catalogue) << told(read.problems);
  EXPECT_EQ(read.catalogue->currency, "EUR");
  EXPECT_EQ(read.catalogue->cables[0].price_minor_per_m, 190);
  EXPECT_EQ(read.remove, (std::vector<std::string>{"path-2w", "halogen-mr16-50w-12"}));
  EXPECT_EQ(read.catalogue->extra, R"({"own":"kept"})");
}

TEST(CatalogueFile, WhatIsWrittenReadsBackEqual) {
  for (const std::string& text : {std::string(shop), project_file("data/catalogue/stock.json")}) {
    const ReadCatalogue read = read_catalogue(text);
    ASSERT_TRUE(read.catalogue);
    const std::string written = write_catalogue(*read.catalogue, read.remove);
    const ReadCatalogue back = read_catalogue(written);
    ASSERT_TRUE(back.catalogue) << told(back.problems);
    EXPECT_EQ(*back.catalogue, *read.catalogue);
    EXPECT_EQ(back.remove, read.remove);
    EXPECT_EQ(write_catalogue(*back.catalogue, back.remove), written);
  }
}

TEST(CatalogueFile, NoKeyOfTheStockIsLost) {
  const Json before = Json::parse(project_file("data/catalogue/stock.json"));
  const Json after = Json::parse(write_catalogue(*read_catalogue(before.dump()).catalogue));
  for (const auto& [key, value] : before.items()) {
    ASSERT_TRUE(after.contains(key)) << key;
    if (!value.is_array()) {
      EXPECT_EQ(after[key], value) << key;
      continue;
    }
    ASSERT_EQ(after[key].size(), value.size()) << key;
    for (std::size_t i = 0; i < value.size(); ++i) {
      for (const auto& [name, field] : value[i].items()) EXPECT_EQ(after[key][i][name], field) << key << i << name;
    }
  }
}

TEST(CatalogueFile, ProblemsAreToldWithTheirPlace) {
  Json tree = Json::parse(shop);
  tree["cables"][0]["area_mm2"] = 0;
  tree["remove"][1] = "two words";
  tree["luminaires"] = Json::parse(R"([{"id":"x","kind":"path","lamp":"resistive"}])");
  const ReadCatalogue read = read_catalogue(tree.dump());
  EXPECT_FALSE(read.catalogue);
  EXPECT_EQ(error_pointers(read.problems),
            (std::vector<std::string>{"/luminaires/0", "/luminaires/0", "/luminaires/0", "/luminaires/0",
                                      "/cables/0/area_mm2", "/remove/1"}))
      << told(read.problems);
}

TEST(CatalogueFile, OtherDocumentsAndVersionsAreRefused) {
  EXPECT_EQ(error_pointers(read_catalogue(full_job_text()).problems), std::vector<std::string>{"/format"});
  Json tree = Json::parse(shop);
  tree["version"] = 2;
  EXPECT_EQ(error_pointers(read_catalogue(tree.dump()).problems), std::vector<std::string>{"/version"});
  EXPECT_FALSE(read_catalogue("").catalogue);
  EXPECT_FALSE(read_catalogue("[]").catalogue);
}

TEST(CatalogueFile, RemoveMustBeAList) {
  Json tree = Json::parse(shop);
  tree["remove"] = "path-2w";
  const ReadCatalogue read = read_catalogue(tree.dump());
  EXPECT_FALSE(read.catalogue);
  EXPECT_EQ(error_pointers(read.problems), std::vector<std::string>{"/remove"});
}

}  // namespace
}  // namespace duskwire::formats
