// SPDX-License-Identifier: Apache-2.0
// How cable lies in the ground: the trench in section with its cover, and a joint beside a luminaire with its loose
// loops, lengths by the job's practice. Not to scale.
#pragma once

#include "job/job.hpp"
#include "paper/document.hpp"
#include "study/crew_trench.hpp"

namespace duskwire::paper {

[[nodiscard]] Drawing burial_drawing(const job::Job& job, const study::CrewGround& ground, job::DisplayUnits units,
                                     double width_mm);

}  // namespace duskwire::paper
