// SPDX-License-Identifier: Apache-2.0
// The forms that texts of a document may take: as a pattern for the schema, as a test for the reader, as words.
#pragma once

#include <string_view>

#include "formats/shape.hpp"

namespace duskwire::formats {

// ECMA-262 regular expression (with the u flag) of a form.
[[nodiscard]] const char* pattern_of(Form form);

// Whether a text is of the form; stricter than the pattern in that a date must exist (no 30 February).
[[nodiscard]] bool has_form(std::string_view text, Form form);

// "a date such as 2026-03-02"
[[nodiscard]] const char* words_for(Form form);

}  // namespace duskwire::formats
