// SPDX-License-Identifier: Apache-2.0
// Seeded dice that roll alike on every platform, which the distributions of the standard library do not promise.
// Generator: SplitMix64 (Steele, Lea, Flood: Fast splittable pseudorandom number generators, OOPSLA 2014).
#pragma once

#include <cstddef>
#include <cstdint>

namespace duskwire::wiring {

class Dice {
 public:
  explicit Dice(std::uint64_t seed) : state_(seed) {}

  std::uint64_t roll() {
    std::uint64_t z = (state_ += 0x9e3779b97f4a7c15ULL);
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9ULL;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebULL;
    return z ^ (z >> 31);
  }
  // 0 to count - 1; the bias of the remainder is below 2^-32 for the counts that occur here.
  std::size_t below(std::size_t count) { return static_cast<std::size_t>(roll() % count); }
  // 0 up to, not including, 1.
  double unit() { return static_cast<double>(roll() >> 11) * 0x1.0p-53; }

 private:
  std::uint64_t state_;
};

}  // namespace duskwire::wiring
