// SPDX-License-Identifier: Apache-2.0
// Labels never sit on each other, on signs, or beyond the paper.
#include "paper/plan_labels.hpp"

#include <gtest/gtest.h>

#include <random>

namespace duskwire::paper {
namespace {

TEST(PlanLabels, ThreeHundredLampsAreNamedWithoutOverlap) {
  for (const unsigned seed : {1U, 2U, 3U}) {
    std::mt19937 dice(seed);
    std::uniform_real_distribution<double> x(5, 245);
    std::uniform_real_distribution<double> y(5, 165);
    std::vector<Label> labels;
    LabelRoom room;
    room.within = {0, 0, 250, 170};
    for (int i = 0; i < 300; ++i) {
      const PointMm at{x(dice), y(dice)};
      labels.push_back({"F" + std::to_string(i + 1), at, 2.1, 1.8, false});
      room.taken.push_back({at.x_mm - 1.6, at.y_mm - 1.6, 3.2, 3.2});
      room.lines.push_back({at, {x(dice), y(dice)}});
    }
    const auto places = place_labels(labels, room);
    std::vector<Box> boxes;
    for (const auto& place : places) {
      ASSERT_TRUE(place.has_value()) << "seed " << seed;
      boxes.push_back(place->box);
    }
    for (std::size_t i = 0; i < boxes.size(); ++i) {
      EXPECT_GE(boxes[i].x_mm, 0);
      EXPECT_LE(boxes[i].right_mm(), 250);
      EXPECT_GE(boxes[i].y_mm, 0);
      EXPECT_LE(boxes[i].bottom_mm(), 170);
      for (std::size_t j = i + 1; j < boxes.size(); ++j) {
        EXPECT_FALSE(overlap(boxes[i], boxes[j])) << "seed " << seed << ": labels " << i << " and " << j;
      }
      for (const Box& sign : room.taken) EXPECT_FALSE(overlap(boxes[i], sign)) << "seed " << seed << ": label " << i;
    }
  }
}

TEST(PlanLabels, ALabelAloneStandsRightBesideItsThing) {
  const auto places = place_labels({{"F1", {50, 50}, 2, 2.5, false}}, {{0, 0, 100, 100}, {}, {}});
  ASSERT_TRUE(places[0].has_value());
  EXPECT_NEAR(places[0]->box.x_mm, 52, 0.01);
  EXPECT_FALSE(places[0]->lead.has_value());
}

TEST(PlanLabels, ALabelKeepsOffACableWhereItCan) {
  // A cable runs off to the right: the label goes elsewhere.
  const auto places = place_labels({{"F1", {50, 50}, 2, 2.5, false}}, {{0, 0, 100, 100}, {}, {{{50, 50}, {90, 50}}}});
  ASSERT_TRUE(places[0].has_value());
  EXPECT_LT(places[0]->box.right_mm(), 50);
}

TEST(PlanLabels, ACrowdedLabelIsLedToItsThing) {
  LabelRoom room{{0, 0, 100, 100}, {{44, 44, 12, 12}}, {}};
  const auto places = place_labels({{"F1", {50, 50}, 2, 2.5, false}}, room);
  ASSERT_TRUE(places[0].has_value());
  EXPECT_TRUE(places[0]->lead.has_value());
}

TEST(PlanLabels, WithoutAnyRoomThereIsNoLabel) {
  EXPECT_FALSE(place_labels({{"F1", {5, 5}, 2, 2.5, false}}, {{0, 0, 10, 4}, {}, {}})[0].has_value());
}

}  // namespace
}  // namespace duskwire::paper
