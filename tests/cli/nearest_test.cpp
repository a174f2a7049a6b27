// SPDX-License-Identifier: Apache-2.0
#include "cli/nearest.hpp"

#include <gtest/gtest.h>

namespace duskwire::cli {
namespace {

TEST(Nearest, FindsTheWordThatWasMeant) {
  const std::vector<std::string> known = {"check", "advise", "materials", "validate", "new", "ask"};
  EXPECT_EQ(nearest("chekc", known), "check");
  EXPECT_EQ(nearest("material", known), "materials");
  EXPECT_EQ(nearest("advice", known), "advise");
  EXPECT_EQ(nearest("aks", known), "ask");
}

TEST(Nearest, SaysNothingWhereNothingIsNear) {
  EXPECT_EQ(nearest("paint", {"check", "ask"}), "");
  EXPECT_EQ(nearest("", {"check", "ask"}), "");
  EXPECT_EQ(nearest("x", {}), "");
}

}  // namespace
}  // namespace duskwire::cli
