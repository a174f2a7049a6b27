// SPDX-License-Identifier: Apache-2.0
// JSON text to a job. Every problem is reported, each with its place, the value met, what is expected and a sentence
// that helps; bad input never throws. The format: docs/job-format.md.
#pragma once

#include <optional>
#include <string_view>

#include "base/problem.hpp"
#include "formats/json_text.hpp"
#include "job/job.hpp"

namespace duskwire::formats {

struct ReadJob {
  std::optional<job::Job> job;
  Problems problems;
};

// A job only where no problem is an error.
[[nodiscard]] ReadJob read_job(std::string_view text);

// A job wherever the structure could be read: dangling references, values out of range and, where a value was of the
// wrong type, the default. To show a job with its errors, never to save it: a rewrite would lose what was not read.
[[nodiscard]] ReadJob read_job_leniently(std::string_view text);

// The same of a document that was parsed before.
[[nodiscard]] ReadJob read_job_tree_leniently(const Json& tree);

}  // namespace duskwire::formats
