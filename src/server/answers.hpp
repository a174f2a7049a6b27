// SPDX-License-Identifier: Apache-2.0
// Answers in the shapes that docs/server-api.md promises, errors above all.
#pragma once

#include <string>
#include <string_view>

#include "base/problem.hpp"
#include "base/result.hpp"
#include "formats/json_text.hpp"
#include "server/http.hpp"
#include "store/workspace.hpp"

namespace duskwire::server {

[[nodiscard]] Response json_answer(unsigned status, const formats::Json& tree);
[[nodiscard]] Response json_text_answer(unsigned status, std::string text);
[[nodiscard]] Response refuse(unsigned status, std::string_view code, const std::string& message);
[[nodiscard]] Response refuse(const Error& error);
// 400 with every problem, in the words of `duskwire check`.
[[nodiscard]] Response refuse_body(const std::string& message, const Problems& problems);
// What a save is answered with: its revision, when, and the checksum that the next save names.
[[nodiscard]] formats::Json saved_json(const store::Saved& saved);
[[nodiscard]] Response refuse_conflict(const store::Conflict& conflict, const std::string& what);

}  // namespace duskwire::server
