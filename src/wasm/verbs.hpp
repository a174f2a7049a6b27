// SPDX-License-Identifier: Apache-2.0
// What the page may ask of the engine: a verb and its arguments as JSON text, the answer as JSON text, the same that
// the command prints with --json. One engine, one thread; data that never changes is read once. Two things are kept
// between calls: the document that is being edited, and the search for a wiring.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/problem.hpp"
#include "base/result.hpp"

namespace duskwire::wasm {

struct Reply {
  bool refused = false;
  std::string text;  // JSON; where refused: {"code", "message", "problems"}
};

// Never throws. Refuses an unknown verb, a wrong number of arguments and input that cannot be used.
[[nodiscard]] Reply call(std::string_view verb, const std::vector<std::string_view>& given);

[[nodiscard]] Reply refuse(const Error& error, const Problems& problems = {});

// "The job cannot be used. /cables/3/item: ..." with the first error in words and all problems.
[[nodiscard]] Reply refuse_input(const std::string& what, const Problems& problems);

}  // namespace duskwire::wasm
