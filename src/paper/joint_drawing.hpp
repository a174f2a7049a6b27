// SPDX-License-Identifier: Apache-2.0
// A joint as it is made: both conductors, a connector for each, every wire with its tag, and the ports that stay free.
// Conductor A is a full line with a round mark, B a dotted line with a square one: nothing hangs on a colour.
#pragma once

#include <string>

#include "job/site.hpp"
#include "paper/document.hpp"
#include "study/crew_joints.hpp"

namespace duskwire::paper {

// As wide as told; as high as its wires need. `title` stands above it.
[[nodiscard]] Drawing joint_drawing(const study::CrewJoint& joint, const std::string& title, job::DisplayUnits units,
                                    double width_mm);

// A joint of a kind that the job has none of, so that all four can be shown.
[[nodiscard]] study::CrewJoint example_joint(job::JointKind kind);

// What the lines and marks mean.
[[nodiscard]] Drawing joint_legend(double width_mm);

}  // namespace duskwire::paper
