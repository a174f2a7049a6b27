// SPDX-License-Identifier: Apache-2.0
// The lights beside a walk by their place along it, and where risers cross it. Internal to the room.
#pragma once

#include <string>
#include <vector>

#include "geometry/strip.hpp"
#include "job/job.hpp"
#include "light/choose.hpp"
#include "study/choose.hpp"

namespace duskwire::study {

// Path lights and bollards of the job that stand within a metre of the walk's edge.
[[nodiscard]] std::vector<light::WalkLight> walk_lights_of(const job::Job& job, const job::Area& area,
                                                           const geometry::Strip& strip);
// Those of a choice, without its step lights.
[[nodiscard]] std::vector<light::WalkLight> walk_lights_of(const geometry::Strip& strip, const ChoiceOption& option);

// Places along the walk where a flight of steps crosses or meets it, each flight once.
[[nodiscard]] std::vector<double> risers_along(const job::Plan& plan, const geometry::Strip& strip);

// "3 pairs of lights face each other: a runway"; empty where it is none.
[[nodiscard]] std::string runway_words(const std::vector<light::WalkLight>& lights);

// A warning for each walk of the job whose lights make a runway.
[[nodiscard]] Findings runway_findings(const job::Job& job);

}  // namespace duskwire::study
