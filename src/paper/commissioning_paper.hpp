// SPDX-License-Identifier: Apache-2.0
// The commissioning sheet: what each place should read when the job is first lit, how far off is still sound, and
// blanks for what the meter says. Signed, it is the record that later readings are held against.
#pragma once

#include "paper/crew_paper.hpp"

namespace duskwire::paper {

[[nodiscard]] Document commissioning_paper(const CrewWish& wish, const job::Job& job, const study::CrewSet& set);

}  // namespace duskwire::paper
