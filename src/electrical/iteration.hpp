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

// Last resort: Newton in which no lamp crosses more than one bend of its law at a time. Where the linearised network
// gives way, no state is near: the lines are laid flat and the descent doubles its stride until a bend is met. What it
// finds is a steady state, though not proven the highest. Collapsed networks and lamps in series through a broken
// conductor need it.
template <class Backend>
Outcome iterate_carefully(Backend& backend) {
  constexpr std::uint32_t most_steps = 2000;
  constexpr std::uint32_t patient_steps = 60;  // then the steps are shortened, lest two states take turns
  constexpr double least_stride = 0.02;
  Outcome outcome;
  backend.start_unloaded();
  backend.begin_careful();
  double plunge = 1;
  double caution = 1;
  for (outcome.iterations = 1; outcome.iterations <= most_steps; ++outcome.iterations) {
    const bool sound = backend.step();
    if (!sound) {
      backend.lay_flat();
      if (!backend.step()) return outcome;
    }
    plunge = sound ? 1.0 : 2 * plunge;
    if (outcome.iterations > patient_steps) caution = std::max(least_stride, 0.99 * caution);
    outcome.residual_a = backend.follow_laws(plunge * caution);
    if (outcome.residual_a <= backend.tolerance_a()) {
      backend.linearise(Linearisation::tangent);
      outcome.converged = true;
      return outcome;
    }
  }
  return outcome;
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
  if (!slow.converged) {
    Outcome careful = iterate_carefully(backend);
    careful.iterations += slow.iterations;
    slow = careful;
  }
  return slow;
}

}  // namespace duskwire::electrical
