// SPDX-License-Identifier: Apache-2.0
// Reading a decimal number out of a text, the same on every platform and in every locale: the C++ library of the
// WebAssembly build has no std::from_chars for floating point.
#pragma once

#include <cstddef>
#include <string_view>

namespace duskwire {

struct LeadingNumber {
  double value = 0;
  std::size_t length = 0;  // characters taken; 0: the text does not begin with a finite number
};

// [-] digits [. digits] [e [+-] digits], with at least one digit before or behind the point.
[[nodiscard]] LeadingNumber leading_number(std::string_view text);

}  // namespace duskwire
