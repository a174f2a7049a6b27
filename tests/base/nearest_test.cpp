// SPDX-License-Identifier: Apache-2.0
#include "base/nearest.hpp"

#include <gtest/gtest.h>

namespace duskwire {
namespace {

const std::vector<std::string> keys{"length_m", "depth_m", "sleeve", "from", "to"};

TEST(Nearest, AMistypedWordFindsItsNeighbour) {
  EXPECT_EQ(nearest("lenght_m", keys), "length_m");  // swapped
  EXPECT_EQ(nearest("dept_m", keys), "depth_m");     // left out
  EXPECT_EQ(nearest("sleeeve", keys), "sleeve");     // doubled
  EXPECT_EQ(nearest("fron", keys), "from");          // changed
}

TEST(Nearest, AWordOfItsOwnFindsNone) {
  EXPECT_EQ(nearest("colour", keys), "");
  EXPECT_EQ(nearest("", keys), "");
  EXPECT_EQ(nearest("x", {}), "");
}

TEST(Nearest, AKnownWordIsItsOwnNeighbour) { EXPECT_EQ(nearest("to", keys), "to"); }

TEST(Nearest, VeryLongWordsAreNotCompared) { EXPECT_EQ(nearest(std::string(5000, 'a'), {std::string(5000, 'a')}), ""); }

}  // namespace
}  // namespace duskwire
