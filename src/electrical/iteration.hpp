// SPDX-License-Identifier: Apache-2.0
// The non-linear iteration, the same for trees and meshes. Internal to the room.
//
// Newton from no-load volts comes down monotonically to the highest steady state as long as every LED stays in its
// regulation range (its current is convex there and the network's inverse is non-negative), and then it is done: the
// usual case, three or four steps. Where an LED leaves the range the start is made again with lines below which the
// load is nowhere on the way down, so that every step stays above the highest steady state; bursts of Newton finish it,
// and where one arrives early it is proven that no state lies higher. docs/algorithms/electrical.md has the argument.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstdint>

#include "electrical/loads.hpp"

namespace duskwire::electrical {

inline constexpr double residual_tolerance_a = 1e-9;

struct Outcome {
  bool converged = false;
  bool regulated = false;  // no LED was below regulation at any step
  std::uint32_t iterations = 0;
  double residual_a = 0;
};

// Newton only; what it arrives at is the proven highest state. Not converged: stopped at the first step that left the
// range. A lamp that is dark even without load, as behind a tripped output, stays so on the way down, where its law is
// a straight line: it spoils neither.
template <class Backend>
Outcome iterate_regulated(Backend& backend) {
  constexpr std::uint32_t most = 80;  // a double root halves its error per step
  Outcome outcome;
  backend.start_unloaded();
  std::uint32_t dark = 0;
  if (backend.linearise(Linearisation::tangent).below_regulation) {
    dark = backend.dark_lamps();
    if (dark == 0) return outcome;
  }
  for (outcome.iterations = 1; outcome.iterations <= most; ++outcome.iterations) {
    if (!backend.step()) return outcome;
    const LinearisationCheck check = backend.linearise(Linearisation::tangent);
    outcome.residual_a = check.residual_a;
    if (!(check.residual_a < 1e12)) return outcome;
    if (check.below_regulation && (dark == 0 || backend.dark_lamps() != dark)) return outcome;
    if (check.residual_a <= backend.tolerance_a()) {
      outcome.converged = true;
      outcome.regulated = dark == 0;
      return outcome;
    }
  }
  return outcome;
}

// Newton from where the backend stands; true if it converged without rising above the volts it started from.
template <class Backend>
bool newton_burst(Backend& backend, Outcome& outcome) {
  constexpr int most = 6;  // where it arrives at all it takes two or three, seldom five
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

// The same with no lamp crossing more than one bend of its law in a step: for lamps that end where they fade, between
// whose flat and whose dark piece plain Newton goes to and fro.
template <class Backend>
bool careful_burst(Backend& backend, Outcome& outcome) {
  constexpr int most = 10;
  backend.begin_careful();
  for (int i = 0; i < most; ++i) {
    ++outcome.iterations;
    if (!backend.step()) return false;
    const double residual_a = backend.follow_laws(1);
    if (!std::isfinite(residual_a)) return false;
    if (residual_a <= backend.tolerance_a()) {
      outcome.residual_a = backend.linearise(Linearisation::tangent).residual_a;
      return backend.not_above_saved();
    }
  }
  return false;
}

// From no-load volts down along lines of one kind, with a burst of Newton now and then.
template <class Backend>
Outcome descend(Backend& backend, Linearisation lines, std::uint32_t most_steps) {
  constexpr std::uint32_t far_down = 6;
  Outcome outcome;
  backend.start_unloaded();
  backend.linearise(lines);
  std::uint32_t next_burst = 1;
  for (std::uint32_t step = 1; step <= most_steps; ++step) {
    ++outcome.iterations;
    backend.step();
    outcome.residual_a = backend.linearise(lines).residual_a;
    if (outcome.residual_a <= backend.tolerance_a()) {
      outcome.converged = true;
      return outcome;
    }
    if (step == next_burst) {
      next_burst += next_burst / 2 + 2;
      backend.save();
      // From far down the slow lines, where Newton arrives is taken without a proof.
      const bool trusted = lines == Linearisation::monotone && step >= far_down;
      const bool arrived = step == 1 ? newton_burst(backend, outcome) : careful_burst(backend, outcome);
      if (arrived && (trusted || backend.is_highest())) {
        outcome.converged = true;
        return outcome;
      }
      backend.restore();
      backend.linearise(lines);
    }
  }
  return outcome;
}

template <class Backend>
Outcome iterate_from_above(Backend& backend) {
  constexpr std::uint32_t most_chords = 300;
  constexpr std::uint32_t most_slow = 400;
  const Outcome quick = descend(backend, Linearisation::chord, most_chords);
  if (quick.converged) return quick;
  Outcome slow = descend(backend, Linearisation::monotone, most_slow);
  slow.iterations += quick.iterations;
  return slow;
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
    const bool stepped = backend.step_fully();
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
