// SPDX-License-Identifier: Apache-2.0
// The half of `levels` that looks at one intensity file instead of a job.
#include <fmt/format.h>

#include "cli/commands.hpp"
#include "cli/output_file.hpp"
#include "cli/photometry_page.hpp"
#include "cli/session.hpp"
#include "formats/json_text.hpp"
#include "formats/photometry_json.hpp"

namespace duskwire::cli {

Outcome photometry_command(const LevelsRequest& request, const Common& common, const TextStyle& style) {
  const Result<std::string> text = read_file(request.photometry);
  if (!text) return refuse(text.error());
  study::PhotometryAnswer answer = study::photometry_of_file(text.value(), !request.lm63_file.empty());
  Outcome outcome{answer.report ? exit_sound : exit_bad_input, "", ""};
  outcome.document = std::move(answer.lm63);
  if (common.json) {
    answer.lm63.clear();  // it has a file of its own
    outcome.text = formats::indented_text(formats::photometry_json(answer)) + "\n";
  } else if (answer.report) {
    outcome.text = photometry_text(answer, style);
  } else {
    return refuse(fmt::format("{} cannot be used as a file of light intensities.", request.photometry), answer.findings,
                  style);
  }
  return outcome;
}

}  // namespace duskwire::cli
