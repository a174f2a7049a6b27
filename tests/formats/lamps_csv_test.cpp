// SPDX-License-Identifier: Apache-2.0
#include "formats/lamps_csv.hpp"

#include <gtest/gtest.h>

#include "formats/documents.hpp"

namespace duskwire::formats {
namespace {

job::LuminaireItem item(const std::string& id, double power_w, job::LampKind lamp = job::LampKind::regulated_led) {
  job::LuminaireItem item;
  item.id = id;
  item.power_w = power_w;
  item.power_va = power_w;
  item.lamp = lamp;
  return item;
}

job::Catalogue stock() {
  job::Catalogue stock;
  stock.luminaires = {item("path-2w", 2), item("path-4w", 4), item("bullet-4w", 4),
                      item("halogen-20w", 20, job::LampKind::filament)};
  return stock;
}

std::vector<job::Luminaire> lamps(const std::string& text) {
  const ReadLamps read = read_lamps_csv(text, stock());
  EXPECT_TRUE(read.problems.empty()) << told(read.problems);
  return read.lamps;
}

Problem only_problem(const std::string& text) {
  const ReadLamps read = read_lamps_csv(text, stock());
  EXPECT_EQ(read.problems.size(), 1u) << told(read.problems);
  return read.problems.empty() ? Problem{} : read.problems[0];
}

TEST(LampsCsv, EveryColumnArrives) {
  const auto read = lamps(
      "id,name,item,zone,x_m,y_m,z_m,azimuth_deg,tilt_deg,dim_pct\r\n"
      "F1,\"Oak, left\",path-2w,tree,1.5,-2,0.4,90,-30,80\r\n");
  ASSERT_EQ(read.size(), 1u);
  EXPECT_EQ(read[0].id, "F1");
  EXPECT_EQ(read[0].name, "Oak, left");
  EXPECT_EQ(read[0].item, "path-2w");
  EXPECT_EQ(read[0].zone, "tree");
  EXPECT_EQ(read[0].position, (geometry::Point3{1.5, -2, 0.4}));
  EXPECT_EQ(read[0].azimuth_deg, 90);
  EXPECT_EQ(read[0].tilt_deg, -30);
  EXPECT_EQ(read[0].dim_pct, 80);
}

// One international foot is 0.3048 m exactly.
TEST(LampsCsv, FeetAreExact) {
  const auto read = lamps("item,x_ft,y_ft,z_ft\npath-2w,10,-100,1\n");
  EXPECT_EQ(read[0].position, (geometry::Point3{3.048, -30.48, 0.3048}));
}

TEST(LampsCsv, HeadsMayBeInAnyOrderAndCase) {
  const auto read = lamps(" Y_M ,ITEM, x_m\n2,path-2w,1\n");
  EXPECT_EQ(read[0].position, (geometry::Point3{1, 2, 0}));
}

TEST(LampsCsv, APlaceIsOptional) {
  EXPECT_FALSE(lamps("name,item\nA,path-2w\n")[0].position);
  EXPECT_FALSE(lamps("item,x_m,y_m\npath-2w,,\n")[0].position);
  EXPECT_FALSE(lamps("item,x_m,y_m\npath-2w\n")[0].position);
}

TEST(LampsCsv, ADistanceLaysTheLampAlongX) {
  EXPECT_EQ(lamps("item,distance_ft\npath-2w,10\n")[0].position, (geometry::Point3{3.048, 0, 0}));
  EXPECT_EQ(lamps("item,distance_m,x_m,y_m\npath-2w,9,1,2\n")[0].position, (geometry::Point3{1, 2, 0}));
}

TEST(LampsCsv, DecimalCommasAreTakenWhereSemicolonsSeparate) {
  EXPECT_EQ(lamps("item;x_m;y_m\npath-2w;1,5;2.25\n")[0].position, (geometry::Point3{1.5, 2.25, 0}));
}

TEST(LampsCsv, WattsStandForTheNearestLedOfTheStock) {
  EXPECT_EQ(lamps("watts\n4\n")[0].item, "path-4w");
  EXPECT_EQ(lamps("item,watts\nbullet-4w,2\n")[0].item, "bullet-4w");
  const ReadLamps near = read_lamps_csv("watts\n3.8\n", stock());
  EXPECT_EQ(near.lamps[0].item, "path-4w");
  ASSERT_EQ(near.problems.size(), 1u);
  EXPECT_EQ(near.problems[0].severity, Severity::warning);
  EXPECT_EQ(only_problem("watts\n20\n").severity, Severity::error);  // the halogen lamp is no LED
}

TEST(LampsCsv, HeadsThatCannotBeUsedAreTold) {
  EXPECT_EQ(only_problem("").pointer, "line 1, column 1");
  EXPECT_NE(only_problem("item,x,y_m\npath-2w,1,1\n").message.find("call it x_m (metres) or x_ft (feet)"),
            std::string::npos);
  EXPECT_NE(only_problem("name\nA\n").message.find("neither \"item\""), std::string::npos);
  EXPECT_NE(only_problem("item,x_m,x_ft,y_m\n").message.find("columns 2 and 3 both say it"), std::string::npos);
  EXPECT_NE(only_problem("item,x_m\npath-2w,1\n").message.find("needs both x and y"), std::string::npos);
  EXPECT_NE(only_problem("item\n").message.find("Below its heads the table is empty"), std::string::npos);
  const Problem unknown = only_problem("item,zon\npath-2w,x\n");
  EXPECT_EQ(unknown.severity, Severity::warning);
  EXPECT_NE(unknown.message.find("Did you mean \"zone\"?"), std::string::npos);
}

TEST(LampsCsv, CellsThatCannotBeUsedAreToldWithLineAndColumn) {
  struct Slip {
    std::string row;
    std::string pointer;
    std::string hint;
  };
  const std::vector<Slip> slips{
      {"a,path-3w,,,,", "line 2, column 2", "did you mean \"path-2w\"?"},
      {"a,lantern,,,,", "line 2, column 2", "has no luminaire \"lantern\"."},
      {"a,,,,,", "line 2, column 2", "neither item nor watts"},
      {"a,path-2w,1 m,2,,", "line 2, column 3", "write the bare number, in m"},
      {"a,path-2w,one,2,,", "line 2, column 3", "not a number"},
      {"a,path-2w,nan,2,,", "line 2, column 3", "not a number"},
      {"a,path-2w,1e9,2,,", "line 2, column 3", "out of range"},
      {"a,path-2w,1,,,", "line 2, column 4", "both x and y"},
      {"a,path-2w,1,2,,101", "line 2, column 6", "out of range"},
      {"a b,path-2w,1,2,,", "line 2, column 1", "holds what it may not"},
      {"a,path-2w,1,2,,,7", "line 2, column 7", "decimal comma"},
  };
  for (const Slip& slip : slips) {
    const Problem problem = only_problem("id,item,x_m,y_m,zone,dim_pct\n" + slip.row + "\nb,path-2w,1,2,,\n");
    EXPECT_EQ(problem.pointer, slip.pointer) << slip.row;
    EXPECT_NE(problem.message.find(slip.hint), std::string::npos) << slip.row << ": " << problem.message;
    EXPECT_TRUE(problem.message.starts_with("Line 2: ")) << problem.message;
    EXPECT_EQ(problem.severity, Severity::error);
  }
}

TEST(LampsCsv, AnIdIsUsedOnce) {
  EXPECT_EQ(only_problem("id,item\nF1,path-2w\nF1,path-2w\n").pointer, "line 3, column 1");
}

TEST(LampsCsv, EverySlipIsTold) {
  EXPECT_EQ(read_lamps_csv("item,x_m,y_m\nno,1,2\npath-2w,a,b\npath-2w,1,2\n", stock()).problems.size(), 3u);
}

// What is said of a table with one slip, wherever it is.
TEST(LampsCsv, EachSlipIsSaid) {
  const std::string wide(250, ',');
  const std::pair<std::string, const char*> cases[] = {
      {"item,x\npath-2w,1\n", "column \"x\" does not say its unit: call it x_m"},
      {"item,y\npath-2w,1\n", "column \"y\" does not say its unit"},
      {"item,z\npath-2w,1\n", "column \"z\" does not say its unit"},
      {"item,distance\npath-2w,1\n", "column \"distance\" does not say its unit"},
      {"item,qqqqqqqqqqq 1\npath-2w,1\n", "is not known and is passed over."},
      {"watts,name\n,left\n", "it names neither item nor watts"},
      {"item,name\npath-2w," + std::string(201, 'x') + "\n", "is too long or holds what it may not"},
      {"watts\n900\n", "the catalogue has no LED lamp near 900 W"},
      {"item,x_m,y_m\npath-2w,1,\n", "a place needs both x and y"},
      {"item,x_m,y_m\npath-2w,,1\n", "a place needs both x and y"},
      {"item,tilt_deg\npath-2w,-91\n", "out of range"},
      {"item,tilt_deg\npath-2w,91\n", "out of range"},
      {"item,tilt_deg\npath-2w,\"4,5\"\n", "write the bare number, in deg"},
      {"item,tilt_deg\npath-2w,x\n", "not a number"},
      {"item,name\npath-2w,\"never closed\r", "is never closed"},
      {"item,x_m\npath-2w,1\n", "a place needs both x and y"},
  };
  for (const auto& [text, said] : cases) {
    const ReadLamps read = read_lamps_csv(text, stock());
    EXPECT_NE(told(read.problems).find(said), std::string::npos) << text << told(read.problems);
  }
}

TEST(LampsCsv, WhatNeedsNoWordIsTaken) {
  EXPECT_EQ(lamps("item,\npath-2w,\n").size(), 1u);
  EXPECT_EQ(lamps("item\npath-2w,,\n").size(), 1u);
  EXPECT_EQ(lamps("item;tilt_deg\npath-2w;4,5\n")[0].tilt_deg, 4.5);
  EXPECT_EQ(lamps("item,tilt_deg\npath-2w,+4\n")[0].tilt_deg, 4);
  EXPECT_EQ(lamps("name,item\n\"a\rb\",path-2w")[0].item, "path-2w");
}

// Lamps for under water stand for none on land.
TEST(LampsCsv, WattsFindNoLampForWaterAndNoneInAnEmptyStock) {
  job::Catalogue wet = stock();
  for (job::LuminaireItem& one : wet.luminaires) one.underwater_listed = true;
  for (const job::Catalogue& none : {wet, job::Catalogue{}}) {
    const ReadLamps read = read_lamps_csv("watts\n4\n", none);
    EXPECT_NE(told(read.problems).find("no LED lamp near 4 W"), std::string::npos);
  }
}

// A table of nothing but slips: a thousand are told, of cells and of lamps, and no more.
TEST(LampsCsv, AThousandSlipsAreToldAndNoMore) {
  std::string bad_bytes = "item\n";
  std::string bad_items = "item\n";
  for (int i = 0; i < 1200; ++i) {
    bad_bytes += "\xff\n";
    bad_items += "none\n";
  }
  EXPECT_EQ(read_lamps_csv(bad_bytes, stock()).problems.size(), 1000u);
  EXPECT_EQ(read_lamps_csv(bad_items, stock()).problems.size(), 1000u);
  const ReadLamps wide = read_lamps_csv("item" + std::string(300, ',') + "\npath-2w\n", stock());
  EXPECT_EQ(wide.lamps.size(), 1u);
}

}  // namespace
}  // namespace duskwire::formats
