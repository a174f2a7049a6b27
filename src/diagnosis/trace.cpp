// SPDX-License-Identifier: Apache-2.0
#include "diagnosis/trace.hpp"

#include <algorithm>
#include <cmath>

#include "diagnosis/trace_chain.hpp"

namespace duskwire::diagnosis {
namespace {

std::vector<LampTrace> lamps_of(const TraceModel& model, const TraceChances& chances) {
  constexpr double worth = 0.005;
  std::vector<LampTrace> lamps;
  for (std::uint32_t lamp = 0; lamp < model.problem().lamps.size(); ++lamp) {
    LampTrace one;
    one.unwalked = chances.unwalked[lamp];
    for (const std::uint32_t choice : model.choices_of(lamp)) {
      const TraceChoice& at = model.choices()[choice];
      if (chances.of_choice[choice] < worth) continue;
      one.places.push_back({at.run, at.place.way, at.place.along_m, at.lead_m, at.at, chances.of_choice[choice]});
    }
    std::stable_sort(one.places.begin(), one.places.end(),
                     [](const TracePlace& x, const TracePlace& y) { return x.chance > y.chance; });
    lamps.push_back(std::move(one));
  }
  return lamps;
}

// The lamps that most likely hang on the run, at their likeliest places.
std::vector<std::uint32_t> likely_members(const TraceModel& model, const TraceChances& chances, std::uint32_t run) {
  std::vector<std::uint32_t> members;
  for (std::uint32_t lamp = 0; lamp < model.problem().lamps.size(); ++lamp) {
    const auto& choices = model.choices_of(lamp);
    if (choices.empty()) continue;
    const std::uint32_t best = *std::max_element(choices.begin(), choices.end(), [&](std::uint32_t a, std::uint32_t b) {
      return chances.of_choice[a] < chances.of_choice[b];
    });
    if (model.choices()[best].run == run && chances.of_choice[best] > chances.unwalked[lamp]) members.push_back(best);
  }
  return members;
}

RunTrace run_of(const TraceModel& model, const TraceChances& chances, std::uint32_t run) {
  const TracedRun& asked = model.problem().runs[run];
  const std::vector<std::uint32_t> members = likely_members(model, chances, run);
  const std::vector<double> logs = model.world_weights(run, members);
  const std::vector<RunWorld>& worlds = model.worlds(run);
  const auto best = static_cast<std::size_t>(std::max_element(logs.begin(), logs.end()) - logs.begin());
  RunTrace trace;
  trace.cable_chance.assign(asked.loop_ohm_per_m.size(), 0);
  double total = 0;
  for (std::size_t k = 0; k < logs.size(); ++k) {
    const double weight = std::exp(logs[k] - logs[best]);
    trace.cable_chance[worlds[k].cable] += weight;
    total += weight;
  }
  for (double& one : trace.cable_chance) one /= total;
  const RunState state = model.settle(run, worlds[best], members);
  for (const double amps : state.current_a) trace.current_a += amps;
  trace.clamps = model.amps(run, state, members);
  if (asked.current_a) {
    trace.total = trace.clamps.front();
    trace.clamps.erase(trace.clamps.begin());
  }
  for (std::size_t k = 0; k < members.size(); ++k) {
    const std::uint32_t lamp = model.choices()[members[k]].lamp;
    const std::optional<double>& measured = model.problem().lamps[lamp].measured;
    if (!measured) continue;
    trace.volts.push_back({lamp, *measured, state.at_lamp_v[k], model.volts_sigma(worlds[best], state.at_lamp_v[k])});
  }
  return trace;
}

}  // namespace

TraceAnswer trace(const TraceProblem& problem) {
  TraceModel model(problem);
  const TraceChances chances = draw_traces(model);
  TraceAnswer answer;
  answer.lamps = lamps_of(model, chances);
  for (std::uint32_t run = 0; run < problem.runs.size(); ++run) answer.runs.push_back(run_of(model, chances, run));
  return answer;
}

}  // namespace duskwire::diagnosis
