// SPDX-License-Identifier: Apache-2.0
// Problems of a document as text: each with its place, the value met, what was expected and how to cure it.
#pragma once

#include <string>
#include <vector>

#include "base/problem.hpp"
#include "cli/text_style.hpp"

namespace duskwire::cli {

[[nodiscard]] std::vector<Severity> severities_of(const Problems& problems);

[[nodiscard]] std::string problems_text(const Problems& problems, const TextStyle& style);

}  // namespace duskwire::cli
