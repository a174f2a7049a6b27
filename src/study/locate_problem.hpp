// SPDX-License-Identifier: Apache-2.0
// From a job to a problem of the diagnosis and back: which place of the problem is which thing of the job, and what it
// takes to get there. Internal to the room; the job and what was built of it must outlive it.
#pragma once

#include <string>
#include <vector>

#include "diagnosis/problem.hpp"
#include "job/plan_ground.hpp"
#include "study/network_builder.hpp"

namespace duskwire::study {

// A hole of the problem as a thing of the job.
struct Site {
  Spot spot;  // joint, luminaire, cable, or the transformer
  bool digging = false;
  std::optional<job::GroundKind> ground;
};

struct LocateProblem {
  diagnosis::FaultProblem problem;
  std::vector<Site> sites;  // by hole
};

[[nodiscard]] LocateProblem locate_problem(const Built& built);

// "F4", "C5": the thing that a node or a segment of the network is.
[[nodiscard]] std::string id_of_node(const Built& built, std::uint32_t node);
[[nodiscard]] std::string id_of_segment(const Built& built, std::uint32_t segment);

// One standard deviation of a meter in volts, of a clamp in amperes.
struct Meter {
  double volts_share = 0.004;  // class 0.8 %: half of it
  double clamp_share = 0.01;
};
[[nodiscard]] double sigma_of(const Meter& meter, diagnosis::Quantity quantity, double value);

}  // namespace duskwire::study
