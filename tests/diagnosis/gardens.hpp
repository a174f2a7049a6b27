// SPDX-License-Identifier: Apache-2.0
// The reference run and its loop as diagnosis problems, and short ways to read them. Node 0 is the tap, node k carries
// Fk, segment k - 1 leads to it.
#pragma once

#include <string>

#include "base/units.hpp"
#include "diagnosis/answer.hpp"
#include "electrical/conductor.hpp"
#include "electrical/nets.hpp"
#include "faulty/problem_of.hpp"

namespace duskwire::diagnosis::test {

inline double loop_ohm(double length_m, double gauge_awg = 12) {
  return 2 * length_m * electrical::copper_ohm_per_m_20c(units::area_mm2_from_awg(gauge_awg));
}

inline electrical::Network reference_run() {
  electrical::Network network = electrical::test::chain(8, 4, loop_ohm(4.5), 13);
  network.segments[0] = electrical::test::segment(0, 1, loop_ohm(18));
  for (electrical::Load& load : network.loads) load.v_regulation_min = 10;
  return network;
}

// The far end comes back over another 18 m: segment 8 runs from F8 to the tap.
inline electrical::Network reference_loop() {
  electrical::Network network = reference_run();
  network.segments.push_back(electrical::test::segment(8, 0, loop_ohm(18)));
  return network;
}

inline void add(FaultProblem& problem, const Probe& probe, double value, double sigma = 0.012) {
  problem.observations.push_back({probe, value, sigma, SeenLamp::lit});
}

inline void see(FaultProblem& problem, std::uint32_t load, SeenLamp seen) {
  problem.observations.push_back({{Quantity::lamp_state, load}, 0, 0, seen});
}

inline void see_all(FaultProblem& problem, SeenLamp seen) {
  for (std::uint32_t load = 0; load < problem.network.loads.size(); ++load) see(problem, load, seen);
}

inline const Fault& first_fault(const Answer& answer) {
  static const Fault nothing;
  const Explanation& best = answer.explanations.front();
  return best.faults.empty() ? nothing : best.faults.front();
}

inline double chance_of(const Answer& answer, std::uint32_t place) {
  for (const PlaceChance& one : answer.places) {
    if (one.place == place) return one.chance;
  }
  return 0;
}

inline double chance_of_span(const FaultProblem& problem, const Answer& answer, std::uint32_t segment) {
  const SpanPlaces& span = problem.spans[segment];
  return chance_of(answer, span.from_side) + chance_of(answer, span.cable) + chance_of(answer, span.to_side);
}

}  // namespace duskwire::diagnosis::test
