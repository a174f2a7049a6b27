// SPDX-License-Identifier: Apache-2.0
#include "cli/commands.hpp"
#include "cli/materials_page.hpp"
#include "cli/session.hpp"
#include "estimate/materials.hpp"
#include "formats/json_text.hpp"
#include "formats/materials_json.hpp"

namespace duskwire::cli {

Outcome materials_command(const MaterialsRequest& request, const Common& common, const TextStyle& style) {
  const Or<Session> opened = open_session(request.job, common, style);
  if (const auto* refused = std::get_if<Outcome>(&opened)) return *refused;
  const auto& session = std::get<Session>(opened);
  const estimate::Materials list = estimate::materials(session.job, session.stock);
  Outcome outcome{has_errors(list.problems) ? exit_findings : exit_sound, "", session.remarks};
  outcome.text = common.json ? formats::indented_text(formats::materials_json(list)) + "\n"
                             : materials_text(session.job, list, session.style);
  return outcome;
}

}  // namespace duskwire::cli
