// SPDX-License-Identifier: Apache-2.0
// Money is an integer of minor units; a quantity, a time and a share are known to a thousandth. No floating point
// touches an amount. Each function rounds once, half away from zero, and is empty where the amount cannot be written in
// 64 bits or the input is no number of its kind.
#pragma once

#include <cmath>
#include <cstdint>
#include <optional>

namespace duskwire::estimate {

// Thousandths of a quantity from 0 to `largest`; empty outside of that.
[[nodiscard]] inline std::optional<std::int64_t> thousandths_of(double quantity, double largest = 1e12) {
  if (!(quantity >= 0 && quantity <= largest)) return std::nullopt;
  return std::llround(quantity * 1000.0);
}

// part x amount / whole, for a whole above 0 and a part of 0 or more.
[[nodiscard]] inline std::optional<std::int64_t> scaled_minor(std::int64_t amount_minor, std::int64_t part,
                                                              std::int64_t whole) {
  std::int64_t product = 0;
  if (__builtin_mul_overflow(amount_minor, part, &product)) return std::nullopt;
  const std::int64_t rest = product % whole;
  const std::int64_t size = rest < 0 ? -rest : rest;
  const std::int64_t away = size >= whole - size ? 1 : 0;
  return product / whole + (product < 0 ? -away : away);
}

// quantity x unit price; neither may be negative.
[[nodiscard]] inline std::optional<std::int64_t> amount_minor(double quantity, std::int64_t unit_price_minor) {
  const auto thousandths = thousandths_of(quantity);
  if (!thousandths || unit_price_minor < 0) return std::nullopt;
  return scaled_minor(unit_price_minor, *thousandths, 1000);
}

// A share of an amount, in percent; the amount may be negative.
[[nodiscard]] inline std::optional<std::int64_t> share_minor(std::int64_t amount_minor, double share_pct) {
  const auto thousandths = thousandths_of(share_pct, 1e6);
  if (!thousandths) return std::nullopt;
  return scaled_minor(amount_minor, *thousandths, 100'000);
}

// Minutes at a rate per hour.
[[nodiscard]] inline std::optional<std::int64_t> time_minor(double minutes, std::int64_t minor_per_h) {
  const auto thousandths = thousandths_of(minutes, 1e9);
  if (!thousandths || minor_per_h < 0) return std::nullopt;
  return scaled_minor(minor_per_h, *thousandths, 60'000);
}

}  // namespace duskwire::estimate
