// SPDX-License-Identifier: Apache-2.0
#include "cli/check_page.hpp"
#include "cli/commands.hpp"
#include "cli/session.hpp"
#include "formats/json_text.hpp"
#include "formats/report_json.hpp"
#include "study/check.hpp"

namespace duskwire::cli {

Outcome check_command(const CheckRequest& request, const Common& common, const TextStyle& style) {
  const Or<Session> opened = open_session(request.job, common, style);
  if (const auto* refused = std::get_if<Outcome>(&opened)) return *refused;
  const auto& session = std::get<Session>(opened);
  const Or<study::Ruleset> loaded = load_ruleset(ruleset_name(session, common), session.style);
  if (const auto* refused = std::get_if<Outcome>(&loaded)) return *refused;
  const auto& ruleset = std::get<study::Ruleset>(loaded);
  const study::Report report = study::check(session.job, ruleset, session.stock, {.cures = request.cures});
  Outcome outcome{report.sound ? exit_sound : exit_findings, "", session.remarks};
  outcome.text = common.json ? formats::indented_text(formats::report_json(report)) + "\n"
                             : check_text({session.job, report, ruleset}, request.detail, session.style);
  return outcome;
}

}  // namespace duskwire::cli
