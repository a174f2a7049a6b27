// SPDX-License-Identifier: Apache-2.0
#include "electrical/ngspice_referee.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "electrical/ngspice_netlist.hpp"
#include "electrical/ngspice_process.hpp"

namespace duskwire::electrical::testing {
namespace {

constexpr std::size_t batch_size = 20;
constexpr int fine_steps = 100;

// One round over the cases that no round has settled.
std::size_t round_of(const std::vector<const Ours*>& cases, Verdict& verdict, int steps) {
  std::vector<std::size_t> open;
  std::vector<const Ours*> asked;
  for (std::size_t i = 0; i < cases.size(); ++i) {
    if (verdict.trouble[i].empty()) continue;
    open.push_back(i);
    asked.push_back(cases[i]);
  }
  const auto answers = ask_ngspice(asked, steps);
  std::size_t settled = 0;
  for (std::size_t k = 0; k < open.size(); ++k) {
    const std::size_t i = open[k];
    if (!answers[k]) {
      verdict.trouble[i] += fmt::format("\n  {} steps: {}", steps, answers[k].error().message);
      continue;
    }
    verdict.gap_v[i] = worst_gap_v(answers[k].value(), cases[i]->solution.node_v);
    if (verdict.gap_v[i] <= referee_tolerance_v) {
      verdict.trouble[i].clear();
      ++settled;
    } else {
      verdict.trouble[i] += fmt::format("\n  {} steps: {} V apart", steps, verdict.gap_v[i]);
    }
  }
  return settled;
}

}  // namespace

Ours solved(Network network, Condition condition) {
  Ours ours{std::move(network), std::move(condition), {}, {}};
  const auto prepared = prepare(ours.network);
  if (!prepared) return ours;
  const WorkspacePtr workspace = make_workspace(*prepared.value());
  ours.solution = solve(*prepared.value(), ours.condition, *workspace);
  ours.potentials = potentials(*prepared.value(), ours.condition, *workspace);
  return ours;
}

std::vector<Result<std::vector<double>>> ask_ngspice(const std::vector<const Ours*>& cases, int steps) {
  std::vector<Result<std::vector<double>>> answers;
  for (std::size_t first = 0; first < cases.size(); first += batch_size) {
    std::vector<SpiceJob> jobs;
    for (std::size_t i = first; i < std::min(first + batch_size, cases.size()); ++i) {
      const Ours& ours = *cases[i];
      const Potentials* start = steps == 1 ? &ours.potentials : nullptr;
      jobs.push_back({ngspice_netlist(ours.network, ours.condition, start), ours.network.node_count, steps});
    }
    for (auto& answer : run_ngspice(jobs)) answers.push_back(std::move(answer));
  }
  return answers;
}

double worst_gap_v(const std::vector<double>& theirs_v, const std::vector<double>& ours_v) {
  double worst = 0;
  for (std::size_t node = 0; node < ours_v.size(); ++node) {
    const double gap = std::abs(theirs_v[node] - ours_v[node]);
    if (!(gap <= worst)) worst = gap;
  }
  return worst;
}

Verdict judged_by_ngspice(const std::vector<const Ours*>& cases) {
  Verdict verdict;
  verdict.gap_v.assign(cases.size(), 0.0);
  verdict.trouble.assign(cases.size(), "not compared");
  verdict.coarse = round_of(cases, verdict, coarse_steps);
  verdict.fine = round_of(cases, verdict, fine_steps);
  verdict.from_ours = round_of(cases, verdict, 1);
  return verdict;
}

}  // namespace duskwire::electrical::testing
