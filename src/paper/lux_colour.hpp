// SPDX-License-Identifier: Apache-2.0
// Colours of light on a plan: a scale that stays in order for every eye and in grey, and the warm look of pools.
#pragma once

namespace duskwire::paper {

struct Colour {
  double red = 0;  // 0..1
  double green = 0;
  double blue = 0;
  double alpha = 1;
};

// Logarithmic from 0.1 lx to 100 lx; darker is the first colour, brighter the last.
[[nodiscard]] Colour false_colour(double lx);
inline constexpr double least_drawn_lx = 0.1;
inline constexpr double most_drawn_lx = 100;

// Light as it looks on dark ground: warm, the brighter the less ground shows.
[[nodiscard]] Colour pool_colour(double lx);

}  // namespace duskwire::paper
