// SPDX-License-Identifier: Apache-2.0
// A natural logarithm for pictures, where half a million of them are taken while a hand drags a lamp.
#pragma once

#include <cstdint>

namespace duskwire::light {

// Within 3e-5 of ln(x) for each normal x > 0; below -87 for 0. ln x = e ln 2 + 2 artanh(t), t = (m - 1) / (m + 1), and
// of the series of artanh four terms: t is at most a third.
[[nodiscard]] inline float quick_log(float x) {
  const auto bits = __builtin_bit_cast(std::uint32_t, x);
  const auto exponent = static_cast<float>(static_cast<std::int32_t>(bits >> 23U) - 127);
  const auto mantissa = __builtin_bit_cast(float, (bits & 0x7FFFFFU) | 0x3F800000U);
  const float t = (mantissa - 1) / (mantissa + 1);
  const float square = t * t;
  constexpr float ln_2 = 0.69314718F;
  return exponent * ln_2 + 2 * t * (1 + square * (1.0F / 3 + square * (1.0F / 5 + square * (1.0F / 7))));
}

}  // namespace duskwire::light
