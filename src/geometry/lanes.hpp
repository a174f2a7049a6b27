// SPDX-License-Identifier: Apache-2.0
// Sixteen numbers that a processor works on together: four vectors of four, by the vector types that g++ and clang
// share, WebAssembly's included. (One vector of sixteen would be shorter to write, but g++ 12 picks its comparisons
// apart number by number where the processor has none so wide.) All of it is inlined into the loop that uses it.
#pragma once

#include <array>
#include <cstdint>
#include <cstring>

#define DUSKWIRE_INLINE __attribute__((always_inline)) inline

namespace duskwire::geometry::lanes {

inline constexpr std::size_t count = 16;
inline constexpr std::size_t parts = count / 4;

using FourFloats = float __attribute__((vector_size(16)));
using FourInts = std::int32_t __attribute__((vector_size(16)));

struct Floats {
  FourFloats part[parts];
};
// All bits of a lane set, or none.
struct Mask {
  FourInts part[parts];
};

template <class Out, class Work>
DUSKWIRE_INLINE Out by_part(Work work) {
  Out out;
  for (std::size_t i = 0; i < parts; ++i) out.part[i] = work(i);
  return out;
}

DUSKWIRE_INLINE Floats all(float x) {
  return by_part<Floats>([&](std::size_t) { return FourFloats{x, x, x, x}; });
}
DUSKWIRE_INLINE Floats operator+(const Floats& a, const Floats& b) {
  return by_part<Floats>([&](std::size_t i) { return a.part[i] + b.part[i]; });
}
DUSKWIRE_INLINE Floats operator-(const Floats& a, const Floats& b) {
  return by_part<Floats>([&](std::size_t i) { return a.part[i] - b.part[i]; });
}
DUSKWIRE_INLINE Floats operator*(const Floats& a, const Floats& b) {
  return by_part<Floats>([&](std::size_t i) { return a.part[i] * b.part[i]; });
}
DUSKWIRE_INLINE Floats operator-(float a, const Floats& b) { return all(a) - b; }
DUSKWIRE_INLINE Floats operator+(const Floats& a, float b) { return a + all(b); }
DUSKWIRE_INLINE Floats operator*(float a, const Floats& b) { return all(a) * b; }
DUSKWIRE_INLINE Floats operator-(const Floats& a) { return Floats{} - a; }

DUSKWIRE_INLINE Mask operator<(const Floats& a, const Floats& b) {
  return by_part<Mask>([&](std::size_t i) { return a.part[i] < b.part[i]; });
}
DUSKWIRE_INLINE Mask operator<=(const Floats& a, const Floats& b) {
  return by_part<Mask>([&](std::size_t i) { return a.part[i] <= b.part[i]; });
}
DUSKWIRE_INLINE Mask operator&(const Mask& a, const Mask& b) {
  return by_part<Mask>([&](std::size_t i) { return a.part[i] & b.part[i]; });
}
DUSKWIRE_INLINE Mask operator|(const Mask& a, const Mask& b) {
  return by_part<Mask>([&](std::size_t i) { return a.part[i] | b.part[i]; });
}

DUSKWIRE_INLINE Floats least(const Floats& a, const Floats& b) {
  return by_part<Floats>([&](std::size_t i) { return a.part[i] < b.part[i] ? a.part[i] : b.part[i]; });
}
DUSKWIRE_INLINE Floats greatest(const Floats& a, const Floats& b) {
  return by_part<Floats>([&](std::size_t i) { return a.part[i] > b.part[i] ? a.part[i] : b.part[i]; });
}
DUSKWIRE_INLINE Floats choose(const Mask& mask, const Floats& a, const Floats& b) {
  return by_part<Floats>([&](std::size_t i) { return mask.part[i] ? a.part[i] : b.part[i]; });
}

DUSKWIRE_INLINE bool any(const Mask& mask) {
  FourInts seen = mask.part[0];
  for (std::size_t i = 1; i < parts; ++i) seen |= mask.part[i];
  std::uint64_t halves[2];
  std::memcpy(halves, &seen, sizeof halves);
  return (halves[0] | halves[1]) != 0;
}

DUSKWIRE_INLINE Floats load(const std::array<float, count>& numbers) {
  Floats out;
  std::memcpy(&out, numbers.data(), sizeof out);
  return out;
}
DUSKWIRE_INLINE std::array<std::int32_t, count> store(const Mask& mask) {
  std::array<std::int32_t, count> numbers;
  std::memcpy(numbers.data(), &mask, sizeof mask);
  return numbers;
}

}  // namespace duskwire::geometry::lanes
