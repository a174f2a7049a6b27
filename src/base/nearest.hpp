// SPDX-License-Identifier: Apache-2.0
// The known word nearest to a mistyped one, for "did you mean".
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace duskwire {

// "" where nothing is within a third of the word's letters (at least one).
[[nodiscard]] std::string nearest(std::string_view word, const std::vector<std::string>& known);

}  // namespace duskwire
