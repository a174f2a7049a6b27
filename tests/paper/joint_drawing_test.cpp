// SPDX-License-Identifier: Apache-2.0
#include "paper/joint_drawing.hpp"

#include <gtest/gtest.h>

namespace duskwire::paper {
namespace {

TEST(JointDrawing, SaysInWordsWhatItShows) {
  const Drawing drawing = joint_drawing(example_joint(job::JointKind::branch), "Branch", job::DisplayUnits::metric, 88);
  for (const char* part : {"3 wires on each of the conductors A and B", "a connector for each", "1 free on each",
                           "cable from supply", "lead of a lamp"}) {
    EXPECT_NE(drawing.alternative.find(part), std::string::npos) << part << " in " << drawing.alternative;
  }
}

TEST(JointDrawing, GrowsWithItsWires) {
  study::CrewJoint hub = example_joint(job::JointKind::hub);
  const double before_mm = joint_drawing(hub, "Hub", job::DisplayUnits::metric, 88).height_mm;
  for (int i = 0; i < 5; ++i) hub.wires.push_back(hub.wires.back());
  EXPECT_NEAR(joint_drawing(hub, "Hub", job::DisplayUnits::metric, 88).height_mm - before_mm, 5 * 8, 1e-9)
      << "a row of 8 mm each";
}

TEST(JointDrawing, HasAnExampleOfEachKind) {
  for (const auto& [kind, wires] : {std::pair{job::JointKind::in_line, 2u},
                                    {job::JointKind::branch, 3u},
                                    {job::JointKind::hub, 5u},
                                    {job::JointKind::end_of_run, 2u}}) {
    EXPECT_EQ(example_joint(kind).wires.size(), wires);
    EXPECT_TRUE(example_joint(kind).wires.front().towards_supply);
  }
}

}  // namespace
}  // namespace duskwire::paper
