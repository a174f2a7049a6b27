// SPDX-License-Identifier: Apache-2.0
// The tables of docs/job-format.md and docs/results.md, made from the shapes that reader and writer follow.
#pragma once

#include <string>
#include <string_view>

namespace duskwire::formats {

// A page with each table between <!-- table NAME --> and <!-- end --> made anew. A NAME that no shape has leaves its
// place empty, so that a test that compares the page finds it.
[[nodiscard]] std::string with_tables(std::string_view page);

}  // namespace duskwire::formats
