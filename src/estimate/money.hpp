// SPDX-License-Identifier: Apache-2.0
// Money is an integer of minor units; a quantity is known to a thousandth. No floating point touches an amount.
#pragma once

#include <cmath>
#include <cstdint>
#include <optional>

namespace duskwire::estimate {

// quantity x unit price, rounded half up once. Empty where the quantity is negative or not finite, the price is
// negative, or the amount is too large.
[[nodiscard]] inline std::optional<std::int64_t> amount_minor(double quantity, std::int64_t unit_price_minor) {
  constexpr double largest_quantity = 1e12;
  if (!(quantity >= 0 && quantity <= largest_quantity) || unit_price_minor < 0) return std::nullopt;
  const std::int64_t thousandths = std::llround(quantity * 1000.0);
  std::int64_t amount = 0;
  if (__builtin_mul_overflow(thousandths, unit_price_minor, &amount)) return std::nullopt;
  return amount / 1000 + (amount % 1000 >= 500 ? 1 : 0);
}

}  // namespace duskwire::estimate
