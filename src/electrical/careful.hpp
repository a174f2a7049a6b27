// SPDX-License-Identifier: Apache-2.0
// Lines for the careful iteration, in which no lamp crosses more than one bend of its law at a time: as circuit
// simulators limit the step of a junction. Internal to the room.
#pragma once

#include <cstddef>
#include <vector>

#include "electrical/loads.hpp"

namespace duskwire::electrical {

// The slots of a bank that one iteration works on, with the powers in force.
struct LampRange {
  const LoadBank& bank;
  const double* s_va = nullptr;
  const double* special_s_va = nullptr;
  std::size_t first = 0;
  std::size_t last = 0;
  std::size_t special_first = 0;
  std::size_t special_last = 0;
};

// Moves `at_v`, where each lamp's line touches its law, by `stride` times its way to `v`, but at most just beyond the
// next bend (cut-off, end of the fade-in, start of regulation), and lays the lines there. The result is the largest
// |I(v) - line(v)| of the lines held before.
double follow_laws(const LampRange& lamps, const double* v, double stride, double* at_v, double* slope_s,
                   double* offset_a);

// How many lamps that have power are dark; 0 if one is neither dark nor in its regulation range.
[[nodiscard]] std::uint32_t count_dark(const LampRange& lamps, const double* v);

// Gives each line the least slope of any chord of its law from `v` up to `top_v`. Whether no other steady state lies
// between is then a matter of the network: with m those slopes, x the state at hand and v another up to top_v,
//   v - x = -Z (I(v) - I(x)) <= -Z m (v - x),  so  (1 + Z m) (v - x) <= 0,  so  v <= x
// if the network stands with the slopes m, for then its inverse is not negative. False: a lamp has changed its
// polarity.
bool lay_chords(const LampRange& lamps, const double* v, const double* top_v, double* slope_s);

// Takes the falling slopes out of the lines: what is left always has an answer.
void flatten(const LampRange& lamps, const double* at_v, double* slope_s, double* offset_a);

}  // namespace duskwire::electrical
