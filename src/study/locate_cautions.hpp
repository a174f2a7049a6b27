// SPDX-License-Identifier: Apache-2.0
// What to mind, at the moment where it matters: before a spade, a meter or a joint. Internal to the room.
#pragma once

#include <string>
#include <vector>

#include "diagnosis/probe.hpp"
#include "study/locate_problem.hpp"

namespace duskwire::study {

[[nodiscard]] std::vector<std::string> dig_cautions(const Site& site);
[[nodiscard]] std::vector<std::string> reading_cautions(const diagnosis::Probe& probe);
[[nodiscard]] std::vector<std::string> standing_cautions();
// Where no fault explains the readings.
[[nodiscard]] std::vector<std::string> misfit_checks();

}  // namespace duskwire::study
