// SPDX-License-Identifier: Apache-2.0
// The last pass over a PDF: what the drawing library cannot write. Language, a title that viewers show, the same facts
// as XMP, what figures show for who cannot see them, scope of table heads, and an identifier made of the content.
#pragma once

#include <string>
#include <vector>

#include "base/result.hpp"
#include "paper/document.hpp"

namespace duskwire::paper {

// `alternatives`: of the figures, in reading order. Errors: unavailable where the file cannot be read back.
[[nodiscard]] Result<std::string> finished_pdf(const std::string& pdf, const TitleBlock& title,
                                               const std::vector<std::string>& alternatives);

}  // namespace duskwire::paper
