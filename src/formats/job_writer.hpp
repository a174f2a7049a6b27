// SPDX-License-Identifier: Apache-2.0
// A job to JSON text that reads back as an equal job. Stable: the same job gives the same text, and one changed value
// changes one line.
#pragma once

#include <string>

#include "formats/json_text.hpp"
#include "job/job.hpp"

namespace duskwire::formats {

[[nodiscard]] std::string write_job(const job::Job& job);

// The same as a tree, to stand within an answer.
[[nodiscard]] Json job_document(const job::Job& job);

}  // namespace duskwire::formats
