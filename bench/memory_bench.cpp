// SPDX-License-Identifier: Apache-2.0
// Bytes per lamp of a large network: what the C library's heap holds for the prepared network (with the network
// itself), its workspace and the solution, after a solve, less what it held before.
#include <benchmark/benchmark.h>
#include <malloc.h>

#include "electrical/solver.hpp"
#include "garden.hpp"

namespace duskwire::bench {
namespace {

double heap_bytes() {
  const struct mallinfo2 info = mallinfo2();
  return static_cast<double>(info.uordblks + info.hblkhd);
}

void memory(benchmark::State& state) {
  const auto lamps = static_cast<std::uint32_t>(state.range(0));
  for (auto _ : state) {
    const double before = heap_bytes();
    const auto prepared = electrical::prepare(garden_network(lamps));
    const electrical::WorkspacePtr workspace = electrical::make_workspace(*prepared.value());
    const electrical::Solution& solution = electrical::solve(*prepared.value(), {}, *workspace);
    benchmark::DoNotOptimize(solution.node_v.data());
    state.counters["bytes_per_lamp"] = (heap_bytes() - before) / lamps;
  }
}
BENCHMARK(memory)->Arg(1000000)->Iterations(1)->Unit(benchmark::kMicrosecond);

}  // namespace
}  // namespace duskwire::bench
