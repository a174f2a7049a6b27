// SPDX-License-Identifier: Apache-2.0
// The wiring as a schematic tree: transformer, outputs with their taps, every cable with length and amps, every joint
// and lamp with the volts predicted there. Not to scale. As many sheets as it takes, lanes going on from one to the
// next.
#pragma once

#include <vector>

#include "job/site.hpp"
#include "paper/document.hpp"
#include "study/crew.hpp"

namespace duskwire::paper {

// Each no wider and no higher than told. Empty where the job has no wiring.
[[nodiscard]] std::vector<Drawing> wiring_diagram(const study::CrewSet& set, job::DisplayUnits units, double width_mm,
                                                  double height_mm);

}  // namespace duskwire::paper
