// SPDX-License-Identifier: Apache-2.0
// Readings of a visit as observations of the diagnosis. What proves nothing or names nothing is put aside with the
// reason. Internal to the room.
#pragma once

#include <string>
#include <vector>

#include "study/locate.hpp"
#include "study/locate_problem.hpp"

namespace duskwire::study {

struct TakenReadings {
  std::vector<job::Reading> readings;  // by observation
  std::vector<diagnosis::Observation> observations;
  std::vector<UnusedReading> unused;
};

[[nodiscard]] TakenReadings take_readings(const Built& built, const std::vector<job::Reading>& readings,
                                          const Meter& meter);

// The history that a visit's answers tell; `dug_near` is marked on the problem's places.
void apply_answers(const Built& built, const job::Visit& visit, diagnosis::FaultProblem& problem);

}  // namespace duskwire::study
