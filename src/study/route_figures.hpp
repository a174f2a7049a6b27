// SPDX-License-Identifier: Apache-2.0
// The figures of one wiring, for setting it beside another: what it costs to put in, and how sound it is by the full
// solver at every corner.
#pragma once

#include <string>
#include <vector>

#include "estimate/installed.hpp"
#include "job/job.hpp"
#include "study/report.hpp"
#include "study/route.hpp"
#include "study/rules.hpp"

namespace duskwire::study {

// Volts are those of the lamps that are fed; where none is, they are 0 and no lamp is named.
[[nodiscard]] RouteFigures figures_of(const job::Job& job, const Ruleset& ruleset, const job::Catalogue& stock,
                                      const estimate::InstallRates& rates,
                                      const std::vector<std::string>& sleeves_to_lay = {});

// The same from a report of that job which is at hand.
[[nodiscard]] RouteFigures figures_of(const job::Job& job, const Report& report, const job::Catalogue& stock,
                                      const estimate::InstallRates& rates,
                                      const std::vector<std::string>& sleeves_to_lay = {});

}  // namespace duskwire::study
