// SPDX-License-Identifier: Apache-2.0
#include "base/decimal.hpp"

#include <charconv>
#include <cmath>
#include <cstdlib>
#include <string>

namespace duskwire {
namespace {

std::size_t after_digits(std::string_view text, std::size_t at) {
  while (at < text.size() && text[at] >= '0' && text[at] <= '9') ++at;
  return at;
}

// How many characters the number takes, 0 for none.
std::size_t number_length(std::string_view text) {
  const std::size_t start = text.substr(0, 1) == "-" ? 1 : 0;
  std::size_t end = after_digits(text, start);
  std::size_t digits = end - start;
  if (text.substr(end, 1) == ".") {
    const std::size_t fraction_end = after_digits(text, end + 1);
    digits += fraction_end - end - 1;
    if (digits > 0) end = fraction_end;
  }
  if (digits == 0) return 0;
  if (text.substr(end, 1) == "e" || text.substr(end, 1) == "E") {
    const std::string_view sign = text.substr(end + 1, 1);
    const std::size_t exponent = end + 1 + (sign == "+" || sign == "-" ? 1 : 0);
    const std::size_t exponent_end = after_digits(text, exponent);
    if (exponent_end > exponent) end = exponent_end;
  }
  return end;
}

double converted(std::string_view number) {
#if defined(__cpp_lib_to_chars)
  double value = HUGE_VAL;
  std::from_chars(number.data(), number.data() + number.size(), value);
  return value;
#else
  return std::strtod(std::string(number).c_str(), nullptr);
#endif
}

}  // namespace

LeadingNumber leading_number(std::string_view text) {
  const std::size_t length = number_length(text);
  if (length == 0) return {};
  const double value = converted(text.substr(0, length));
  return std::isfinite(value) ? LeadingNumber{value, length} : LeadingNumber{};
}

}  // namespace duskwire
