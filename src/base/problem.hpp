// SPDX-License-Identifier: Apache-2.0
// Problem: one thing wrong with a document, with its place, the value met and what was expected. A reader returns all
// of them, never only the first.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace duskwire {

enum class Severity : std::uint8_t { note = 0, warning = 1, error = 2 };

struct Problem {
  Severity severity = Severity::error;
  std::string pointer;   // JSON pointer (RFC 6901) into the document, "" for the whole
  std::string value;     // the value met, as short text; "" where a key is missing
  std::string expected;  // what would have been right, with unit and range
  std::string message;   // one sentence: what is wrong and how to cure it
};

using Problems = std::vector<Problem>;

[[nodiscard]] inline bool has_errors(const Problems& problems) {
  for (const Problem& problem : problems) {
    if (problem.severity == Severity::error) return true;
  }
  return false;
}

}  // namespace duskwire
