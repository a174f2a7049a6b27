// SPDX-License-Identifier: Apache-2.0
// A diagnosis problem made of a bare network: every splice, cable, lamp and output a place with a usual effort. Shared
// by the tests and the bench.
#pragma once

#include "diagnosis/problem.hpp"

namespace duskwire::faulty {

struct Efforts {
  double transformer_min = 1;
  double look_min = 1;    // which lamps are out, seen from the path
  double lamp_min = 2;    // lamp base, no digging
  double joint_min = 15;  // dug out
  double cable_min = 45;  // a length of cable dug along
  double meter_sigma_v = 0.015;
  double meter_sigma_a = 0.01;
};

// `leads`: segments that are a lamp's own lead. Candidates: volts at every lamp, joint and output, volts on each
// cable's own ends, amperes of each output and of the cables that leave it, net amperes, ohms at outputs and lamps,
// whether a device has tripped, mains,
// one look at all lamps.
[[nodiscard]] diagnosis::FaultProblem problem_of(electrical::Network network, const Efforts& efforts = {},
                                                 const std::vector<bool>& leads = {});

// The candidate that reads this, for its effort and meter; throws where there is none.
[[nodiscard]] const diagnosis::Candidate& candidate(const diagnosis::FaultProblem& problem,
                                                    const diagnosis::Probe& probe);

}  // namespace duskwire::faulty
