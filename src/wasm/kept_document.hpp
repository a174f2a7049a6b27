// SPDX-License-Identifier: Apache-2.0
// The document that is being edited, kept as a tree between two questions: a drag changes a lamp and two cables, so
// only those are sent and read from text again.
#pragma once

#include <optional>
#include <string_view>

#include "base/result.hpp"
#include "formats/json_text.hpp"

namespace duskwire::wasm {

class KeptDocument {
 public:
  // Keeps a document that is plain JSON; one with problems is not kept.
  formats::ParsedText keep(std::string_view text);

  // `parts`: [[JSON pointer, new value], ...], each pointer to something that is there. The tree as it is then. Where a
  // part does not fit, nothing is kept any more: the whole document must be sent anew (not_found or invalid).
  Result<const formats::Json*> change(std::string_view parts);

 private:
  std::optional<formats::Json> tree_;
};

}  // namespace duskwire::wasm
