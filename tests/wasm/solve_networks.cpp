// SPDX-License-Identifier: Apache-2.0
// Prints the node volts of seeded random networks with 17 digits, one network a line. Built natively and for Node, so
// that the engine of the page can be held against the engine of the command.
// Usage: solve_networks [count]
#include <cstdio>
#include <cstdlib>

#include "electrical/random_networks.hpp"
#include "electrical/solver.hpp"

namespace {

using duskwire::electrical::testing::RandomCase;

// Every kind of trouble in the odd seeds, sound radial networks in the even ones.
RandomCase case_of(std::uint64_t seed) {
  duskwire::electrical::testing::Mix mix;
  if (seed % 2 == 0) {
    mix.loops = mix.opens = mix.bridges = mix.crossed = mix.ties = mix.islands = false;
  }
  return duskwire::electrical::testing::random_case(seed, mix);
}

bool print_case(std::uint64_t seed) {
  const RandomCase one = case_of(seed);
  const auto solution = duskwire::electrical::solve(one.network, one.condition);
  if (!solution) {
    std::fprintf(stderr, "seed %llu: %s\n", static_cast<unsigned long long>(seed), solution.error().message.c_str());
    return false;
  }
  std::printf("seed %llu converged %d", static_cast<unsigned long long>(seed), solution.value().converged ? 1 : 0);
  for (const double volts_v : solution.value().node_v) std::printf(" %.17g", volts_v);
  std::printf("\n");
  return true;
}

}  // namespace

int main(int argc, char** argv) {
  const std::uint64_t count = argc > 1 ? std::strtoull(argv[1], nullptr, 10) : 1000;
  for (std::uint64_t seed = 1; seed <= count; ++seed) {
    if (!print_case(seed)) return 1;
  }
  return 0;
}
