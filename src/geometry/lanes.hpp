// SPDX-License-Identifier: Apache-2.0
// Sixteen numbers that a processor works on together, by the vector types that g++ and clang share; WebAssembly with
// and without its vector instructions takes them too. Everything here is inlined into the loop that uses it.
#pragma once

#include <cstdint>
#include <cstring>

namespace duskwire::geometry::lanes {

inline constexpr int count = 16;

using Floats = float __attribute__((vector_size(count * sizeof(float))));
using Ints = std::int32_t __attribute__((vector_size(count * sizeof(std::int32_t))));

#define DUSKWIRE_INLINE __attribute__((always_inline)) inline

DUSKWIRE_INLINE Floats all(float x) { return x - Floats{}; }
DUSKWIRE_INLINE Floats least(const Floats& a, const Floats& b) { return a < b ? a : b; }
DUSKWIRE_INLINE Floats greatest(const Floats& a, const Floats& b) { return a > b ? a : b; }

DUSKWIRE_INLINE bool any(const Ints& mask) {
  std::uint64_t pairs[count / 2];
  std::memcpy(pairs, &mask, sizeof mask);
  std::uint64_t seen = 0;
  for (const std::uint64_t pair : pairs) seen |= pair;
  return seen != 0;
}

}  // namespace duskwire::geometry::lanes
