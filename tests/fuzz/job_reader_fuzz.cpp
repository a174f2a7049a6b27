// SPDX-License-Identifier: Apache-2.0
// Any bytes into the reader of jobs. Whatever it accepts must be written and read back as an equal job, and written
// again as the same text. Every problem must be fit to be shown.
#include <cstdio>
#include <cstdlib>
#include <string>
#include <string_view>

#include "base/utf8.hpp"
#include "formats/job_reader.hpp"
#include "formats/job_writer.hpp"
#include "formats/problems_json.hpp"

namespace {

using namespace duskwire;

void demand(bool condition, const char* what) {
  if (condition) return;
  std::fprintf(stderr, "broken: %s\n", what);
  std::abort();
}

void check_problems(const Problems& problems) {
  for (const Problem& problem : problems) {
    demand(!problem.message.empty(), "a problem says something");
    for (const std::string& text : {problem.message, problem.value, problem.expected, problem.pointer}) {
      demand(well_formed(text) == text, "what a problem says is UTF-8");
    }
  }
}

void check_round_trip(const job::Job& job) {
  const std::string text = formats::write_job(job);
  const formats::ReadJob back = formats::read_job(text);
  demand(back.job.has_value(), "what was written is read");
  demand(*back.job == job, "what is read back is equal");
  demand(formats::write_job(*back.job) == text, "what is written again is the same text");
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const unsigned char* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const formats::ReadJob read = formats::read_job(text);
  check_problems(read.problems);
  demand(read.job.has_value() || has_errors(read.problems), "a refusal has its reason");
  if (read.job) check_round_trip(*read.job);
  const formats::ReadJob lenient = formats::read_job_leniently(text);
  demand(lenient.problems.size() == read.problems.size(), "both readers tell the same");
  // A job with errors is shown, never saved, but writing it must not fail either.
  if (lenient.job) static_cast<void>(formats::write_job(*lenient.job));
  return 0;
}
