// SPDX-License-Identifier: Apache-2.0
#include "plain_sweep.hpp"

#include <algorithm>
#include <cmath>

namespace duskwire::bench {
namespace {

constexpr double tolerance_a = 1e-9;
constexpr int most_sweeps = 1000;

// Lamp currents at v into both arrays; the largest change against what lamp_a held.
double draw(const double* s_va, const double* v_regulation, const double* v, std::uint32_t first, std::uint32_t last,
            double* __restrict lamp_a, double* __restrict branch_a) {
  double change = 0;
  for (std::uint32_t k = first; k < last; ++k) {
    const double a = s_va[k] / std::max(v[k], v_regulation[k]);
    const double moved = std::abs(a - lamp_a[k]);
    change = moved > change ? moved : change;
    lamp_a[k] = branch_a[k] = a;
  }
  return change;
}

// Children come after their parents: from the far end each slot adds its current to its parent's.
void gather(const std::uint32_t* parent, std::uint32_t first, std::uint32_t last, double* branch_a) {
  for (std::uint32_t k = last; k-- > first;) {
    if (parent[k] != k) branch_a[parent[k]] += branch_a[k];
  }
}

void drop(const std::uint32_t* parent, const double* r_ohm, const double* branch_a, std::uint32_t first,
          std::uint32_t last, double* v) {
  for (std::uint32_t k = first; k < last; ++k) {
    v[k] = (parent[k] == k ? source_v : v[parent[k]]) - r_ohm[k] * branch_a[k];
  }
}

}  // namespace

PlainSweep::PlainSweep(const ReducedGarden& garden)
    : garden_(garden), v_(garden.parent.size()), lamp_a_(garden.parent.size()), branch_a_(garden.parent.size()) {}

int PlainSweep::solve_range(std::uint32_t first, std::uint32_t last) {
  std::fill(v_.begin() + first, v_.begin() + last, source_v);
  std::fill(lamp_a_.begin() + first, lamp_a_.begin() + last, 0.0);
  for (int sweep = 0; sweep < most_sweeps; ++sweep) {
    const double change = draw(garden_.s_va.data(), garden_.v_regulation.data(), v_.data(), first, last, lamp_a_.data(),
                               branch_a_.data());
    if (change < tolerance_a) return sweep;
    gather(garden_.parent.data(), first, last, branch_a_.data());
    drop(garden_.parent.data(), garden_.r_ohm.data(), branch_a_.data(), first, last, v_.data());
  }
  return most_sweeps;
}

int PlainSweep::solve() { return solve_range(0, static_cast<std::uint32_t>(v_.size())); }

int PlainSweep::solve_tree_by_tree() {
  int most = 0;
  for (std::size_t tree = 0; tree + 1 < garden_.tree_first.size(); ++tree) {
    most = std::max(most, solve_range(garden_.tree_first[tree], garden_.tree_first[tree + 1]));
  }
  return most;
}

}  // namespace duskwire::bench
