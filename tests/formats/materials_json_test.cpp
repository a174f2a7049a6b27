// SPDX-License-Identifier: Apache-2.0
#include "formats/materials_json.hpp"

#include <gtest/gtest.h>

namespace duskwire::formats {
namespace {

TEST(MaterialsJson, KeepsEveryPartUnderItsName) {
  estimate::Materials list;
  list.currency = "EUR";
  list.lines.push_back({estimate::Category::cable, "2.5mm2-2", "Cable", 52, "m", 160, 8320, 45, "2 cuts"});
  list.cables.push_back({"2.5mm2-2", "Cable", 2, 45, 1.9, 46.9, 51.59, 52});
  list.reels.push_back({"2.5mm2-2", 1, 52, 46.9});
  list.cuts.push_back({"run-1", "2.5mm2-2", "T-1", "Garage", "S1", "Hub", 30, 1, 0.3, 31.3, 1, 31.3});
  list.splices.push_back({"S1", "Hub", job::JointKind::end_of_run, 2, "gel", true, true, 2, 1, 3, "room for 3 more"});
  list.splices.push_back({});
  list.problems.push_back({Severity::warning, "/joints/1", "x", "y", "z"});
  list.price_minor = 8320;
  const auto json = materials_json(list);
  EXPECT_EQ(json["currency"], "EUR");
  EXPECT_EQ(json["price_minor"], 8320);
  EXPECT_EQ(json["lines"][0]["category"], "cable");
  EXPECT_EQ(json["lines"][0]["unit_price_minor"], 160);
  EXPECT_DOUBLE_EQ(json["cables"][0]["with_waste_m"], 51.59);
  EXPECT_DOUBLE_EQ(json["reels"][0]["used_m"], 46.9);
  EXPECT_EQ(json["cuts"][0]["from_name"], "Garage");
  EXPECT_EQ(json["splices"][0]["kind"], "end_of_run");
  EXPECT_TRUE(json["splices"][1]["kind"].is_null());
  EXPECT_EQ(json["problems"][0]["severity"], "warning");
}

TEST(MaterialsJson, EmptyListHasEmptyArraysNotNulls) {
  const auto json = materials_json({});
  for (const char* part : {"lines", "cables", "reels", "cuts", "splices", "problems"}) {
    EXPECT_TRUE(json[part].is_array()) << part;
    EXPECT_TRUE(json[part].empty()) << part;
  }
}

}  // namespace
}  // namespace duskwire::formats
