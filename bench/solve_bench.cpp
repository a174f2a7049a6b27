// SPDX-License-Identifier: Apache-2.0
// One nominal solve from a flat start to 1e-9 A, by the solver and by what it is measured against, in one run. Before a
// method is timed its answer is compared with the plain sweep's at every lamp.
#include <benchmark/benchmark.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <memory>

#include "electrical/solver.hpp"
#include "garden.hpp"
#include "plain_newton.hpp"
#include "plain_sweep.hpp"
#include "spice_process.hpp"

namespace duskwire::bench {
namespace {

using benchmark::State;

constexpr double agreement_v = 1e-8;

const ReducedGarden& reduced(std::uint32_t lamps) {
  static std::map<std::uint32_t, ReducedGarden> kept;
  auto found = kept.find(lamps);
  if (found == kept.end()) found = kept.emplace(lamps, reduced_garden(lamps)).first;
  return found->second;
}

// One of each method per size, kept for all repetitions.
template <class Method>
Method& kept_method(std::uint32_t lamps) {
  static std::map<std::uint32_t, std::unique_ptr<Method>> kept;
  std::unique_ptr<Method>& method = kept[lamps];
  if (!method) method = std::make_unique<Method>(reduced(lamps));
  return *method;
}

const std::vector<double>& expected_v(std::uint32_t lamps) {
  static std::map<std::uint32_t, std::vector<double>> kept;
  std::vector<double>& volts = kept[lamps];
  if (volts.empty()) {
    PlainSweep sweep(reduced(lamps));
    sweep.solve();
    volts = sweep.volts();
  }
  return volts;
}

double worst_gap_v(const std::vector<double>& p, const std::vector<double>& q) {
  double worst = 0;
  for (std::size_t k = 0; k < p.size(); ++k) worst = std::max(worst, std::abs(p[k] - q[k]));
  return worst;
}

std::uint32_t lamps_of(const State& state) { return static_cast<std::uint32_t>(state.range(0)); }

struct Prepared {
  std::shared_ptr<const electrical::Prepared> prepared;
  electrical::WorkspacePtr workspace;
};

Prepared& prepared_garden(std::uint32_t lamps) {
  static std::map<std::uint32_t, Prepared> kept;
  Prepared& garden = kept[lamps];
  if (!garden.prepared) {
    garden.prepared = electrical::prepare(garden_network(lamps)).value();
    garden.workspace = electrical::make_workspace(*garden.prepared);
  }
  return garden;
}

bool agrees(const electrical::Solution& solution, std::uint32_t lamps) {
  const ReducedGarden& garden = reduced(lamps);
  const std::vector<double>& expected = expected_v(lamps);
  double worst = 0;
  for (std::size_t k = 0; k < expected.size(); ++k) {
    worst = std::max(worst, std::abs(solution.node_v[garden.node[k]] - expected[k]));
  }
  return solution.converged && worst <= agreement_v;
}

void solver(State& state) {
  Prepared& garden = prepared_garden(lamps_of(state));
  const electrical::Condition nominal;
  if (!agrees(electrical::solve(*garden.prepared, nominal, *garden.workspace), lamps_of(state))) {
    state.SkipWithError("the solver and the plain sweep disagree");
  }
  std::uint32_t iterations = 0;
  for (auto _ : state) {
    const electrical::Solution& solution = electrical::solve(*garden.prepared, nominal, *garden.workspace);
    iterations = solution.iterations;
    benchmark::DoNotOptimize(solution.node_v.data());
    benchmark::ClobberMemory();
  }
  state.counters["iterations_needed"] = iterations;
}

void prepare(State& state) {
  const electrical::Network network = garden_network(lamps_of(state));
  for (auto _ : state) {
    const auto prepared = electrical::prepare(network);
    const electrical::WorkspacePtr workspace = electrical::make_workspace(*prepared.value());
    benchmark::DoNotOptimize(workspace.get());
  }
}

template <class Method, class Solve>
void timed(State& state, const Solve& solve) {
  Method& method = kept_method<Method>(lamps_of(state));
  int iterations = solve(method);
  if (worst_gap_v(method.volts(), expected_v(lamps_of(state))) > agreement_v) {
    state.SkipWithError("disagrees with the plain sweep");
  }
  for (auto _ : state) {
    iterations = solve(method);
    benchmark::DoNotOptimize(method.volts().data());
    benchmark::ClobberMemory();
  }
  state.counters["iterations_needed"] = iterations;
}

void plain_sweep(State& state) {
  timed<PlainSweep>(state, [](PlainSweep& sweep) { return sweep.solve(); });
}
void plain_sweep_tree_by_tree(State& state) {
  timed<PlainSweep>(state, [](PlainSweep& sweep) { return sweep.solve_tree_by_tree(); });
}
void eigen_newton(State& state) {
  timed<EigenNewton>(state, [](EigenNewton& newton) { return newton.solve(); });
}
void klu_newton(State& state) {
  timed<KluNewton>(state, [](KluNewton& newton) { return newton.solve(); });
}

void ngspice_process(State& state) {
  SpiceProcess& ngspice = kept_method<SpiceProcess>(lamps_of(state));
  if (!(std::abs(ngspice.solve() - expected_v(lamps_of(state)).back()) <= 1e-6)) {
    state.SkipWithError("ngspice did not run or disagrees with the plain sweep");
  }
  for (auto _ : state) benchmark::DoNotOptimize(ngspice.solve());
}

void all_sizes(benchmark::internal::Benchmark* row) {
  for (const int lamps : {30, 300, 3000, 30000, 1000000}) row->Arg(lamps);
  row->Unit(benchmark::kMicrosecond)->MinTime(0.2);
}

BENCHMARK(solver)->Apply(all_sizes);
BENCHMARK(plain_sweep)->Apply(all_sizes);
BENCHMARK(plain_sweep_tree_by_tree)->Apply(all_sizes);
BENCHMARK(eigen_newton)->Apply(all_sizes);
BENCHMARK(klu_newton)->Apply(all_sizes);
BENCHMARK(prepare)->Apply(all_sizes);
BENCHMARK(ngspice_process)->Arg(30)->Iterations(20)->Unit(benchmark::kMicrosecond)->UseRealTime();
BENCHMARK(ngspice_process)->Arg(30000)->Iterations(2)->Unit(benchmark::kMicrosecond)->UseRealTime();

}  // namespace
}  // namespace duskwire::bench
