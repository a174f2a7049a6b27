// SPDX-License-Identifier: Apache-2.0
// The catalogue as text: shelf by shelf, or only the articles that a word finds.
#pragma once

#include <string>

#include "cli/text_style.hpp"
#include "job/catalogue.hpp"

namespace duskwire::cli {

// The articles with `word` in their id, title or shelf, whatever the case; all for "".
[[nodiscard]] job::Catalogue found_in(const job::Catalogue& catalogue, const std::string& word);

[[nodiscard]] std::size_t article_count(const job::Catalogue& catalogue);

[[nodiscard]] std::string catalogue_text(const job::Catalogue& catalogue, const TextStyle& style);

}  // namespace duskwire::cli
