// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include "cli/commands.hpp"
#include "cli/output_file.hpp"
#include "cli/session.hpp"
#include "cli/trace_page.hpp"
#include "formats/job_writer.hpp"
#include "formats/trace_json.hpp"
#include "study/trace.hpp"

namespace duskwire::cli {

Outcome trace_command(const TraceRequest& request, const Common& common, const TextStyle& style) {
  if (request.walk_file.empty()) {
    return {exit_bad_input, "", "duskwire trace: --walk FILE is required\nTry duskwire trace --help.\n"};
  }
  const Or<Session> opened = open_session(request.job, common, style);
  if (const auto* refused = std::get_if<Outcome>(&opened)) return *refused;
  const auto& session = std::get<Session>(opened);
  const Result<std::string> text = read_file(request.walk_file);
  if (!text) return refuse(text.error());
  const auto asked = formats::read_trace_request(text.value());
  const std::string headline = fmt::format("{} cannot be used as a walk.", request.walk_file);
  if (!asked.request) return refuse(headline, asked.problems, session.style);
  study::Traced traced = study::trace(session.job, session.stock, *asked.request);
  if (!traced.job) return refuse(headline, traced.problems, session.style);
  traced.job->site.units = session.file_units;
  Outcome outcome{exit_sound, "", session.remarks};
  for (const study::LampFound& lamp : traced.lamps) {
    if (lamp.run.empty()) outcome.code = exit_findings;
  }
  outcome.document = formats::write_job(*traced.job);
  outcome.text = common.json ? formats::compact_text(formats::trace_json(traced)) + "\n"
                             : trace_text({session.job, traced, !common.output.empty()}, session.style);
  return outcome;
}

}  // namespace duskwire::cli
