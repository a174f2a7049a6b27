// SPDX-License-Identifier: Apache-2.0
// The first answer to a client's photograph. Expected: similar triangles by hand, and what a contractor would write
// back to this note (ranking, who must not be dazzled, what to ask).
#include "study/first_look.hpp"

#include <gtest/gtest.h>

#include "study/client_note.hpp"

namespace duskwire::study {
namespace {

FirstLookRequest front_steps() {
  FirstLookRequest request;
  request.known = {"door", 410};
  request.known_m = 2.03;
  request.things = {{"tree", 1480}};
  request.note = "front steps are scary, I love the tree, bedroom is above the porch";
  return request;
}

TEST(FirstLook, ADoorGivesATreeItsHeightAndItsError) {
  const auto look = first_look(front_steps());
  ASSERT_TRUE(look.ok());
  const SizeEstimate& tree = look.value().sizes.at(0);
  EXPECT_NEAR(tree.size_m, 7.33, 0.005);  // 2.03 * 1480 / 410
  EXPECT_NEAR(tree.error_share, 0.15, 0.001);
  EXPECT_NEAR(tree.error_m, 1.1, 0.01);
}

TEST(FirstLook, InOnePlaneOnlyTheMarksErr) {
  FirstLookRequest request = front_steps();
  request.depth_error_share = 0;
  const auto look = first_look(request);
  ASSERT_TRUE(look.ok());
  EXPECT_NEAR(look.value().sizes.at(0).error_share, 0.0072, 0.0001);  // 2.83 px of 410 and of 1480
}

TEST(FirstLook, StepsComeFirstTheTreeSecondAndTheBedroomIsAnEye) {
  const auto look = first_look(front_steps());
  ASSERT_TRUE(look.ok());
  ASSERT_EQ(look.value().effects.size(), 2u);
  EXPECT_EQ(look.value().effects[0].feature, "steps");
  EXPECT_EQ(look.value().effects[0].rank, 1u);
  EXPECT_EQ(look.value().effects[1].feature, "tree");
  ASSERT_EQ(look.value().eyes.size(), 1u);
  EXPECT_NE(look.value().eyes[0].name.find("bedroom"), std::string::npos);
}

TEST(FirstLook, AsksForWhatIsMissingAndNothingElse) {
  const auto look = first_look(front_steps());
  ASSERT_TRUE(look.ok());
  std::string all;
  for (const std::string& ask : look.value().asks) all += ask + "\n";
  EXPECT_NE(all.find("outlet"), std::string::npos);
  EXPECT_NE(all.find("pool or a pond"), std::string::npos);
  EXPECT_NE(all.find("after dark"), std::string::npos);
  FirstLookRequest told = front_steps();
  told.outlet_known = told.water_known = told.night_photo_seen = true;
  told.depth_error_share = 0.03;
  EXPECT_TRUE(first_look(told).value().asks.empty());
}

// Two to four lights at the steps and two to three at a tree of 7 m; 150 to 400 USD each.
TEST(FirstLook, GivesAPriceBandNotOnePrice) {
  const auto look = first_look(front_steps());
  ASSERT_TRUE(look.ok());
  EXPECT_EQ(look.value().price_low_minor, 4 * 150'00);
  EXPECT_EQ(look.value().price_high_minor, 7 * 400'00);
  EXPECT_NE(look.value().price_basis.find("estimate"), std::string::npos);
}

TEST(FirstLook, WithoutAKnownSizeItSaysSo) {
  FirstLookRequest request = front_steps();
  request.known.size_px = 0;
  EXPECT_NE(first_look(request).error().message.find("both above 0"), std::string::npos);
  request = front_steps();
  request.things.push_back({"hedge", 0});
  EXPECT_NE(first_look(request).error().message.find("\"hedge\""), std::string::npos);
}

TEST(ClientNote, LoveBeforeFearInTheNoteStillRanksSafetyFirst) {
  const ClientNote note = read_note("We love the old oak. My mother fell on the stairs and the neighbour looks in!");
  ASSERT_EQ(note.features.size(), 2u);
  EXPECT_EQ(note.features[0].feature, Feature::tree);
  EXPECT_EQ(note.features[1].feature, Feature::steps);
  EXPECT_EQ(note.features[1].feeling, Feeling::fear);
  ASSERT_EQ(note.eyes.size(), 1u);
  EXPECT_EQ(note.eyes[0], "the neighbour looks in");
  FirstLookRequest request = front_steps();
  request.note = "We love the old oak. My mother fell on the stairs";
  EXPECT_EQ(first_look(request).value().effects[0].feature, "steps");
}

TEST(ClientNote, ABedroomIsNoFlowerBed) {
  EXPECT_TRUE(read_note("the bedroom is quiet").features.empty());
  EXPECT_EQ(read_note("the rose bed").features.size(), 1u);
}

}  // namespace
}  // namespace duskwire::study
