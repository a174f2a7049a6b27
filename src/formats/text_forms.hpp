// SPDX-License-Identifier: Apache-2.0
// The forms that texts of a document may take: as a pattern for the schema, as a test for the reader.
#pragma once

#include <cstdint>
#include <string_view>

#include "formats/shape.hpp"

namespace duskwire::formats {

// ECMA-262 regular expression of a form that is not empty.
[[nodiscard]] const char* pattern_of(Form form);

// "a date such as 2026-03-02"
[[nodiscard]] const char* words_for(Form form);

// Whether a text is of the form; stricter than the pattern in that a date must exist (no 30 February).
[[nodiscard]] bool has_form(std::string_view text, Form form);

// Unicode code points of a valid UTF-8 text.
[[nodiscard]] std::size_t count_chars(std::string_view text);

}  // namespace duskwire::formats
