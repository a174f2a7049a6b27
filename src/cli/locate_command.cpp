// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include "cli/commands.hpp"
#include "cli/locate_page.hpp"
#include "cli/output_file.hpp"
#include "cli/session.hpp"
#include "formats/locate_json.hpp"
#include "formats/locate_requests.hpp"
#include "study/locate.hpp"

namespace duskwire::cli {
namespace {

Or<study::LocateOptions> options_of(const LocateRequest& request, const Session& session) {
  study::LocateOptions options;
  if (!request.readings_file.empty()) {
    const Result<std::string> text = read_file(request.readings_file);
    if (!text) return refuse(text.error());
    auto read = formats::read_readings_csv(text.value());
    if (!read.request) {
      return refuse(fmt::format("{} cannot be used as a table of readings.", request.readings_file), read.problems,
                    session.style);
    }
    options = std::move(*read.request);
    options.readings_alone = true;
  }
  if (!request.visit) return options;
  if (*request.visit > session.job.visits.size()) {
    return Outcome{exit_bad_input, "",
                   fmt::format("There is no visit {}: the job has {}.\n", *request.visit, session.job.visits.size())};
  }
  options.visit = *request.visit - 1;
  return options;
}

}  // namespace

Outcome locate_command(const LocateRequest& request, const Common& common, const TextStyle& style) {
  const Or<Session> opened = open_session(request.job, common, style);
  if (const auto* refused = std::get_if<Outcome>(&opened)) return *refused;
  const auto& session = std::get<Session>(opened);
  const Or<study::LocateOptions> options = options_of(request, session);
  if (const auto* refused = std::get_if<Outcome>(&options)) return *refused;
  const study::Located located = study::locate(session.job, std::get<study::LocateOptions>(options));
  const bool fine = located.verdict == diagnosis::Verdict::sound || located.verdict == diagnosis::Verdict::no_readings;
  Outcome outcome{fine ? exit_sound : exit_findings, "", session.remarks};
  outcome.text = common.json ? formats::compact_text(formats::locate_json(located)) + "\n"
                             : locate_text(session.job, located, session.style);
  return outcome;
}

}  // namespace duskwire::cli
