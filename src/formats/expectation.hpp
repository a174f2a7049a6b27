// SPDX-License-Identifier: Apache-2.0
// What a field takes, in words: "a number from 0 to 2000 W". For messages and for the tables of the format page.
#pragma once

#include <string>
#include <vector>

#include "formats/shape.hpp"

namespace duskwire::formats {

[[nodiscard]] std::string words_of(const Number& rule, bool whole = false);
[[nodiscard]] std::string words_of(const Text& rule);
[[nodiscard]] std::string words_of(const std::vector<std::string>& names);
[[nodiscard]] std::string words_of(const Ref& rule);
[[nodiscard]] std::string words_of(const Numbers& rule);
[[nodiscard]] std::string words_of(const Places& rule);
[[nodiscard]] std::string words_of(const Pixel& rule);
[[nodiscard]] std::string words_of(const Pixels& rule);
[[nodiscard]] std::string words_of(const Way& rule);
[[nodiscard]] std::string place_words(std::size_t coordinates);
[[nodiscard]] std::string list_words(std::size_t max_count);

}  // namespace duskwire::formats
