// SPDX-License-Identifier: Apache-2.0
#include "formats/materials_csv.hpp"

#include <gtest/gtest.h>

namespace duskwire::formats {
namespace {

estimate::Materials small_list() {
  estimate::Materials list;
  list.currency = "USD";
  list.lines.push_back({estimate::Category::cable, "12awg-2", "Cable, 12 AWG", 52, "m", 160, 8320, 45, "2 cuts"});
  list.lines.push_back({estimate::Category::mount, "stake", "=cmd|x", 8, "piece", 200, 1600, 4, "F1, F2"});
  list.cuts.push_back({"run-1", "12awg-2", "T-1", "Garage, output T-1", "S1", "Hub", 30, 1, 0.3, 31.3, 1, 31.3});
  return list;
}

TEST(MaterialsCsv, HasOneRowPerLineWithDecimalPrices) {
  EXPECT_EQ(materials_csv(small_list()),
            "category,item,title,quantity,unit,unit_price,price,currency,labour_min,note\r\n"
            "cable,12awg-2,\"Cable, 12 AWG\",52,m,1.60,83.20,USD,45,2 cuts\r\n"
            "mount,stake,'=cmd|x,8,piece,2.00,16.00,USD,4,\"F1, F2\"\r\n");
}

TEST(CutListCsv, HasOneRowPerCut) {
  EXPECT_EQ(cut_list_csv(small_list()),
            "tag,item,from,from_name,to,to_name,route_m,slack_from_m,slack_to_m,cut_m,reel,running_m\r\n"
            "run-1,12awg-2,T-1,\"Garage, output T-1\",S1,Hub,30,1,0.3,31.3,1,31.3\r\n");
}

TEST(MaterialsCsv, EmptyListIsItsHead) {
  EXPECT_EQ(materials_csv({}), "category,item,title,quantity,unit,unit_price,price,currency,labour_min,note\r\n");
}

}  // namespace
}  // namespace duskwire::formats
