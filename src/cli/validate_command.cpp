// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include "cli/commands.hpp"
#include "cli/findings_page.hpp"
#include "cli/output_file.hpp"
#include "cli/problems_page.hpp"
#include "cli/session.hpp"
#include "formats/job_reader.hpp"
#include "formats/json_text.hpp"
#include "formats/problems_json.hpp"

namespace duskwire::cli {

Outcome validate_command(const ValidateRequest& request, const Common& common, const TextStyle& style) {
  const Result<std::string> text = read_file(request.job);
  if (!text) return refuse(text.error());
  const formats::ReadJob read = formats::read_job(text.value());
  const int code = read.job ? exit_sound : exit_bad_input;
  if (common.json) {
    formats::Json out;
    out["well_formed"] = read.job.has_value();
    out["problems"] = formats::problems_json(read.problems);
    return {code, formats::indented_text(out) + "\n", ""};
  }
  const std::string verdict =
      paint(style, read.job ? Ink::good : Ink::bad, read.job ? "Well formed: " : "Not usable: ");
  std::string page = verdict + tally(severities_of(read.problems)) + ".\n";
  if (read.job) {
    const job::Job& job = *read.job;
    page += fmt::format("{}: {} lamps, {} transformers, {} cables, {} joints.\n", job.title, job.luminaires.size(),
                        job.transformers.size(), job.cables.size(), job.joints.size());
  }
  if (!read.problems.empty()) page += "\n" + problems_text(read.problems, style);
  return {code, page, ""};
}

}  // namespace duskwire::cli
