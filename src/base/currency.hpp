// SPDX-License-Identifier: Apache-2.0
// Amounts of money as text. Inside, money is an integer of minor units; ISO 4217 says how many make one unit.
#pragma once

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstdint>
#include <string>
#include <string_view>

namespace duskwire {

// Digits after the decimal point (ISO 4217, from memory): 2, but for the currencies that are listed here.
[[nodiscard]] constexpr int minor_digits(std::string_view currency) {
  constexpr std::array<std::string_view, 15> none{"BIF", "CLP", "DJF", "GNF", "ISK", "JPY", "KMF", "KRW",
                                                  "PYG", "RWF", "UGX", "VND", "XAF", "XOF", "XPF"};
  constexpr std::array<std::string_view, 7> three{"BHD", "IQD", "JOD", "KWD", "LYD", "OMR", "TND"};
  if (std::find(none.begin(), none.end(), currency) != none.end()) return 0;
  return std::find(three.begin(), three.end(), currency) != three.end() ? 3 : 2;
}

// "1265.30", without the currency's name; a decimal point in every locale.
[[nodiscard]] inline std::string decimal_amount(std::int64_t minor, std::string_view currency) {
  const int digits = minor_digits(currency);
  const std::uint64_t size = minor < 0 ? -static_cast<std::uint64_t>(minor) : static_cast<std::uint64_t>(minor);
  const std::uint64_t unit = digits == 0 ? 1 : digits == 2 ? 100 : 1000;
  const std::string_view sign = minor < 0 ? "-" : "";
  if (digits == 0) return fmt::format("{}{}", sign, size);
  return fmt::format("{}{}.{:0{}}", sign, size / unit, size % unit, digits);
}

}  // namespace duskwire
