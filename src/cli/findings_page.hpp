// SPDX-License-Identifier: Apache-2.0
// Findings as text: what, where, measured against which limit, why that limit, and the cure.
#pragma once

#include <string>
#include <vector>

#include "cli/names.hpp"
#include "cli/text_style.hpp"
#include "study/finding.hpp"

namespace duskwire::cli {

// "error" ... in the colour that goes with it.
[[nodiscard]] Ink ink_of(Severity severity);
[[nodiscard]] std::string word_of(Severity severity);

// "3 errors, 2 warnings"; "no errors, no warnings" for none; notes are named only where there are some.
[[nodiscard]] std::string tally(const std::vector<Severity>& severities);

[[nodiscard]] std::vector<Severity> severities_of(const study::Findings& findings);

// Errors and warnings. Findings of one kind that the same changes cure stand together, the gravest in full. With
// `sources`, where each rule was seen is told too.
[[nodiscard]] std::string findings_page(const study::Findings& findings, const Names& names, bool sources,
                                        const TextStyle& style);

// Notes: what could not be judged, a line or two each; "" where there are none.
[[nodiscard]] std::string notes_page(const study::Findings& findings, const TextStyle& style);

}  // namespace duskwire::cli
