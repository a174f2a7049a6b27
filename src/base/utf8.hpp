// SPDX-License-Identifier: Apache-2.0
// UTF-8 as documents need it: counted, checked, and made fit to be shown.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace duskwire {

// Length in bytes of the well-formed character at the start of a text, 0 where there is none (Unicode, table 3-7).
[[nodiscard]] std::size_t character_bytes(std::string_view text);

// Unicode code points; each ill-formed byte counts as one.
[[nodiscard]] std::size_t count_chars(std::string_view text);

// The same with each ill-formed byte replaced by U+FFFD.
[[nodiscard]] std::string well_formed(std::string_view text);

// Short and on one line, for a message: control characters become spaces, what is too long ends in "...".
[[nodiscard]] std::string shortened(std::string_view text, std::size_t max_chars = 60);

}  // namespace duskwire
