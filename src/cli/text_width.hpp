// SPDX-License-Identifier: Apache-2.0
// Text measured in terminal cells, not bytes: UTF-8 aware, blind to colour codes. Used by wrapping and tables.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace duskwire::cli {

// Cells that `text` takes in one line. Broken UTF-8 counts one cell a byte.
[[nodiscard]] int display_width(std::string_view text);

// `text` cut to at most `cells`, ending in `ellipsis` where something was cut. Precondition: no colour codes in it.
[[nodiscard]] std::string clip(std::string_view text, int cells, std::string_view ellipsis);

[[nodiscard]] std::string pad_right(std::string_view text, int cells);
[[nodiscard]] std::string pad_left(std::string_view text, int cells);

// `text` broken at spaces, but not between a number and its unit, into lines of at most `cells`; a longer word stands
// alone and is broken where it must.
[[nodiscard]] std::vector<std::string> wrap(std::string_view text, int cells);
[[nodiscard]] std::vector<std::string> wrap(std::string_view text, int first_cells, int cells);

// A paragraph: first line behind `lead`, the others indented to the same column, or by `hang` cells.
[[nodiscard]] std::string paragraph(std::string_view lead, std::string_view text, int width);
[[nodiscard]] std::string paragraph(std::string_view lead, std::string_view text, int width, int hang);

}  // namespace duskwire::cli
