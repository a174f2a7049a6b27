// SPDX-License-Identifier: Apache-2.0
#include "paper/lux_colour.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace duskwire::paper {
namespace {

// Nine stations of the viridis scale (public domain, CC0): even in lightness, in order for the colour-blind.
constexpr std::array<std::array<double, 3>, 9> stations{{{0.267, 0.005, 0.329},
                                                         {0.279, 0.175, 0.483},
                                                         {0.230, 0.322, 0.546},
                                                         {0.173, 0.449, 0.558},
                                                         {0.128, 0.567, 0.551},
                                                         {0.158, 0.684, 0.502},
                                                         {0.369, 0.789, 0.383},
                                                         {0.678, 0.864, 0.190},
                                                         {0.993, 0.906, 0.144}}};

double share_of(double lx) {
  if (!(lx > least_drawn_lx)) return 0;
  return std::min(std::log10(lx / least_drawn_lx) / std::log10(most_drawn_lx / least_drawn_lx), 1.0);
}

}  // namespace

Colour false_colour(double lx) {
  const double place = share_of(lx) * (stations.size() - 1);
  const auto low = static_cast<std::size_t>(std::min(std::floor(place), static_cast<double>(stations.size() - 2)));
  const double share = place - static_cast<double>(low);
  const auto mix = [&](std::size_t i) { return stations[low][i] + share * (stations[low + 1][i] - stations[low][i]); };
  return {mix(0), mix(1), mix(2), 1};
}

Colour pool_colour(double lx) {
  const double share = share_of(lx);
  return {1, 0.76 + 0.14 * share, 0.45 + 0.3 * share, 0.95 * std::pow(share, 1.4)};
}

}  // namespace duskwire::paper
