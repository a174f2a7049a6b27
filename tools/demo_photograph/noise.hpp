// SPDX-License-Identifier: Apache-2.0
// Numbers that look random and are the same every time: dice by seed, and smooth noise in space.
#pragma once

#include <cmath>
#include <cstdint>

namespace duskwire::demo {

[[nodiscard]] inline std::uint32_t mixed(std::uint32_t x) {
  x ^= x >> 16u;
  x *= 0x7feb352du;
  x ^= x >> 15u;
  x *= 0x846ca68bu;
  return x ^ (x >> 16u);
}

[[nodiscard]] inline double unit_of(std::uint32_t x) { return (mixed(x) >> 8u) * (1.0 / 16777216.0); }

[[nodiscard]] inline std::uint32_t cell_hash(std::int64_t x, std::int64_t y, std::int64_t z = 0) {
  return mixed(static_cast<std::uint32_t>(x) * 73856093u ^ static_cast<std::uint32_t>(y) * 19349663u ^
               static_cast<std::uint32_t>(z) * 83492791u);
}

class Dice {
 public:
  explicit Dice(std::uint32_t seed) : state_(mixed(seed * 2654435761u + 1)) {}
  // 0 to 1.
  double next() {
    state_ += 0x9e3779b9u;
    return unit_of(state_);
  }
  double between(double low, double high) { return low + (high - low) * next(); }
  // Mean 0, spread 1: a sum of uniform numbers is near enough to a bell.
  double bell() { return (next() + next() + next() + next() - 2) * 1.7320508; }

 private:
  std::uint32_t state_;
};

// Smooth, 0 to 1, one bump a unit.
[[nodiscard]] inline double noise(double x, double y, double z = 0) {
  const double fx = std::floor(x);
  const double fy = std::floor(y);
  const double fz = std::floor(z);
  const auto ease = [](double t) { return t * t * (3 - 2 * t); };
  const double u = ease(x - fx);
  const double v = ease(y - fy);
  const double w = ease(z - fz);
  const auto at = [&](int i, int j, int k) {
    return unit_of(cell_hash(static_cast<std::int64_t>(fx) + i, static_cast<std::int64_t>(fy) + j,
                             static_cast<std::int64_t>(fz) + k));
  };
  const auto mix = [](double a, double b, double t) { return a + (b - a) * t; };
  const double low = mix(mix(at(0, 0, 0), at(1, 0, 0), u), mix(at(0, 1, 0), at(1, 1, 0), u), v);
  const double high = mix(mix(at(0, 0, 1), at(1, 0, 1), u), mix(at(0, 1, 1), at(1, 1, 1), u), v);
  return mix(low, high, w);
}

// Noise on noise, each octave half as strong and twice as fine; 0 to 1.
[[nodiscard]] inline double cloudy(double x, double y, double z, int octaves) {
  double sum = 0;
  double weight = 0.5;
  double all = 0;
  for (int i = 0; i < octaves; ++i) {
    sum += weight * noise(x, y, z);
    all += weight;
    weight *= 0.5;
    x = 2.03 * x + 17.1;
    y = 2.03 * y + 5.7;
    z = 2.03 * z + 9.2;
  }
  return sum / all;
}

}  // namespace duskwire::demo
