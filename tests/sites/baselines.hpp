// SPDX-License-Identifier: Apache-2.0
// How a careful contractor wires by habit, so that the planner has somebody to beat: one gauge throughout, the shape
// decided beforehand. Each gets the size of its runs, the gauge, the places, the transformers and the devices that make
// it cheapest while a check finds it sound: more trying than anybody does by hand.
#pragma once

#include <cstdint>
#include <optional>
#include <string_view>

#include "estimate/installed.hpp"
#include "job/job.hpp"
#include "study/rules.hpp"

namespace duskwire::sites {

enum class Habit : std::uint8_t {
  chain = 0,          // from lamp to the nearest lamp, a new run where one is full
  spanning_tree = 1,  // every lamp on the nearest one that is wired
  hubs = 2,           // clusters of five to eight lamps on a hub with a cable from the transformer
};
inline constexpr Habit habits[] = {Habit::chain, Habit::spanning_tree, Habit::hubs};
[[nodiscard]] std::string_view habit_name(Habit habit);

struct Baseline {
  job::Job job;
  estimate::InstalledCost cost;
};

// The cheapest that a check finds sound with every lamp fed; empty where none is.
[[nodiscard]] std::optional<Baseline> baseline(Habit habit, const job::Job& site, const study::Ruleset& rules,
                                               const job::Catalogue& stock, const estimate::InstallRates& rates);

}  // namespace duskwire::sites
