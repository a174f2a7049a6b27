// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include "cli/commands.hpp"
#include "cli/levels_page.hpp"
#include "cli/session.hpp"
#include "formats/level_set_file.hpp"
#include "formats/levels_json.hpp"
#include "paper/night_plan_sheet.hpp"
#include "study/levels.hpp"

namespace duskwire::cli {
namespace {

Outcome unknown_set(const std::string& id) {
  std::string known;
  for (const study::LevelSet& set : formats::embedded_level_sets()) known += (known.empty() ? "" : ", ") + set.id;
  return {exit_bad_input, "", fmt::format("There is no set of levels \"{}\". There are {}.\n", id, known)};
}

// The drawing as a file's bytes, by the ending of its name; app.cpp writes it.
Result<std::string> drawing(const LevelsRequest& request, const Session& session, const study::NightPlan& plan) {
  paper::NightPlanLook look;
  look.pools = request.pools;
  look.units = session.style.units;
  if (request.plan_file.ends_with(".svg")) return paper::night_plan_svg(session.job, plan, look);
  if (request.plan_file.ends_with(".png")) return paper::night_plan_png(session.job, plan, look);
  return Error{ErrorCode::invalid, fmt::format("\"{}\" ends neither in .png nor in .svg: the ending says what to draw.",
                                               request.plan_file)};
}

}  // namespace

Outcome levels_command(const LevelsRequest& request, const Common& common, const TextStyle& style) {
  if (!request.photometry.empty()) return photometry_command(request, common, style);
  if (request.job.empty()) {
    return {exit_bad_input, "",
            "duskwire levels: JOB is required, or --photometry FILE\nTry duskwire levels --help.\n"};
  }
  const Or<Session> opened = open_session(request.job, common, style);
  if (const auto* refused = std::get_if<Outcome>(&opened)) return *refused;
  const auto& session = std::get<Session>(opened);
  const study::LevelSets& sets = formats::embedded_level_sets();
  study::LevelsOptions options = request.asked;
  options.plan = common.json || !request.plan_file.empty();
  const study::Levels levels = study::levels(session.job, sets, options);
  if (find_set(sets, levels.targets) == nullptr) return unknown_set(levels.targets);
  Outcome outcome{levels.sound ? exit_sound : exit_findings, "", session.remarks};
  if (!request.plan_file.empty()) {
    const Result<std::string> bytes = drawing(request, session, *levels.plan);
    if (!bytes) return refuse(bytes.error());
    outcome.document = bytes.value();
  }
  outcome.text = common.json ? formats::compact_text(formats::levels_json(levels)) + "\n"
                             : levels_text({session.job, levels, sets}, request.full, session.style);
  return outcome;
}

}  // namespace duskwire::cli
