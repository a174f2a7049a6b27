// SPDX-License-Identifier: Apache-2.0
// The non-linear iteration, the same for trees and meshes. Internal to the room.
//
// Newton from no-load volts comes down monotonically to the highest steady state as long as every LED stays in its
// regulation range (its current is convex there and the network's inverse is non-negative), and then it is done: the
// usual case, three or four steps. Where an LED leaves the range the start is made again with lines that are never
// below the load (slope 0 above regulation, steepest rise below), which comes down to the highest steady state from
// above however the load bends, but slowly; bursts of Newton finish it. docs/algorithms/electrical.md has the argument.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstdint>

#include "electrical/loads.hpp"

namespace duskwire::electrical {

inline constexpr double residual_tolerance_a = 1e-9;

struct Outcome {
  bool converged = false;
  bool regulated = false;  // no LED was below regulation at any step: this is the proven highest state
  std::uint32_t iterations = 0;
  double residual_a = 0;
};

// Newton only. Not regulated: stopped at the first step that left the range.
template <class Backend>
Outcome iterate_regulated(Backend& backend) {
  constexpr std::uint32_t most = 80;  // a double root halves its error per step
  Outcome outcome;
  backend.start_unloaded();
  if (backend.linearise(Linearisation::tangent).below_regulation) return outcome;
  for (outcome.iterations = 1; outcome.iterations <= most; ++outcome.iterations) {
    if (!backend.step()) return outcome;
    const LinearisationCheck check = backend.linearise(Linearisation::tangent);
    outcome.residual_a = check.residual_a;
    if (!(check.residual_a < 1e12) || check.below_regulation) return outcome;
    if (check.residual_a <= backend.tolerance_a()) {
      outcome.converged = outcome.regulated = true;
      return outcome;
    }
  }
  return outcome;
}

// Newton from where the backend stands; true if it converged without rising above the volts it started from.
template <class Backend>
bool newton_burst(Backend& backend, Outcome& outcome) {
  constexpr int most = 25;
  backend.linearise(Linearisation::tangent);
  for (int i = 0; i < most; ++i) {
    ++outcome.iterations;
    if (!backend.step()) return false;
    const double residual_a = backend.linearise(Linearisation::tangent).residual_a;
    if (!std::isfinite(residual_a)) return false;
    if (residual_a <= backend.tolerance_a()) {
      outcome.residual_a = residual_a;
      return backend.not_above_saved();
    }
  }
  return false;
}

template <class Backend>
Outcome iterate_from_above(Backend& backend) {
  constexpr std::uint32_t most_steps = 400;
  constexpr std::uint32_t first_burst = 6;
  Outcome outcome;
  backend.start_unloaded();
  backend.linearise(Linearisation::monotone);
  std::uint32_t next_burst = first_burst;
  for (std::uint32_t step = 1; step <= most_steps; ++step) {
    ++outcome.iterations;
    backend.step();
    outcome.residual_a = backend.linearise(Linearisation::monotone).residual_a;
    if (outcome.residual_a <= backend.tolerance_a()) {
      outcome.converged = true;
      return outcome;
    }
    if (step == next_burst) {
      next_burst += next_burst / 2 + 2;
      backend.save();
      if (newton_burst(backend, outcome)) {
        outcome.converged = true;
        return outcome;
      }
      backend.restore();
      backend.linearise(Linearisation::monotone);
    }
  }
  return outcome;
}

// Last resort: Newton with a conductance added to every line, as if each lamp had to charge a capacitor first; it
// shrinks with the imbalance (pseudo-transient continuation: Kelley and Keyes 1998, from memory). From no-load volts it
// walks towards a stable state. What it finds is a steady state, though not proven the highest. Lamps in series through
// a broken conductor, near their cut-off, can need it.
template <class Backend>
void iterate_stiffened(Backend& backend, Outcome& outcome, double first_stiffness_s) {
  constexpr int most_steps = 500;
  constexpr double strongest = 3.0;  // change of stiffness in one step
  backend.start_unloaded();
  backend.linearise(Linearisation::tangent);
  double stiffness_s = first_stiffness_s;
  double before_a = 0;
  for (int i = 0; i < most_steps; ++i) {
    ++outcome.iterations;
    backend.save();
    backend.stiffen(stiffness_s);
    if (!backend.step()) {
      backend.restore();
      backend.linearise(Linearisation::tangent);
      stiffness_s *= strongest;
      continue;
    }
    const double after_a = backend.linearise(Linearisation::tangent).residual_a;
    outcome.residual_a = after_a;
    if (after_a <= backend.tolerance_a()) {
      outcome.converged = true;
      return;
    }
    const double ratio = before_a > 0 ? std::min(1.2, after_a / before_a) : 1.0;
    stiffness_s *= std::max(1 / strongest, ratio);
    before_a = after_a;
  }
}

// A few more Newton steps while they still help. Conductors that hang on next to nothing (a leak of a microsiemens)
// turn the nanoampere that counts as solved into a millivolt; these steps bring them to rounding.
template <class Backend>
void polish(Backend& backend, Outcome& outcome) {
  constexpr int most_steps = 4;
  for (int i = 0; i < most_steps && outcome.residual_a > 0; ++i) {
    backend.save();
    const bool stepped = backend.step();
    const double after_a = stepped ? backend.linearise(Linearisation::tangent).residual_a : HUGE_VAL;
    if (!(after_a <= backend.tolerance_a())) {
      backend.restore();
      backend.linearise(Linearisation::tangent);
      return;
    }
    const bool helped = after_a < 0.5 * outcome.residual_a;
    outcome.residual_a = after_a;
    if (!helped) return;
  }
}

template <class Backend>
Outcome iterate(Backend& backend) {
  Outcome outcome = iterate_regulated(backend);
  if (outcome.converged) return outcome;
  Outcome slow = iterate_from_above(backend);
  slow.iterations += outcome.iterations;
  for (double stiffness_s = 0.1; !slow.converged && stiffness_s < 1e3; stiffness_s *= 10) {
    iterate_stiffened(backend, slow, stiffness_s);
  }
  return slow;
}

}  // namespace duskwire::electrical
