// SPDX-License-Identifier: Apache-2.0
#include "cli/advise_page.hpp"
#include "cli/commands.hpp"
#include "cli/session.hpp"
#include "formats/advice_json.hpp"
#include "formats/json_text.hpp"
#include "study/advise.hpp"

namespace duskwire::cli {

Outcome advise_command(const AdviseRequest& request, const Common& common, const TextStyle& style) {
  const Or<Session> opened = open_session(request.job, common, style);
  if (const auto* refused = std::get_if<Outcome>(&opened)) return *refused;
  const auto& session = std::get<Session>(opened);
  const study::Advice advice = study::advise(session.job, session.stock);
  Outcome outcome{is_served(advice) ? exit_sound : exit_findings, "", session.remarks};
  outcome.text = common.json ? formats::indented_text(formats::advice_json(advice)) + "\n"
                             : advice_text(session.job, advice, session.style);
  return outcome;
}

}  // namespace duskwire::cli
