// SPDX-License-Identifier: Apache-2.0
#include "cli/ask_page.hpp"
#include "cli/commands.hpp"
#include "cli/session.hpp"
#include "formats/answer_json.hpp"
#include "formats/json_text.hpp"
#include "study/ask.hpp"

namespace duskwire::cli {

Outcome ask_command(const AskRequest& request, const Common& common, const TextStyle& style) {
  const Or<Stock> loaded = load_stock(common.catalogue, style);
  if (const auto* refused = std::get_if<Outcome>(&loaded)) return *refused;
  TextStyle own = style;
  own.units = common.units.value_or(units_of(request));
  const auto read = question_of(request, own.units, std::get<Stock>(loaded).catalogue);
  if (const auto* slips = std::get_if<Slips>(&read)) {
    std::string complaint;
    for (const std::string& sentence : slips->sentences) complaint += "duskwire ask: " + sentence + "\n";
    return {exit_bad_input, "", complaint + "Try duskwire ask --help.\n"};
  }
  const auto& question = std::get<study::Question>(read);
  const Result<study::Answer> answered = study::ask(question, own.units);
  if (!answered) return refuse(answered.error());
  const study::Answer& answer = answered.value();
  const bool good = answer.found && answer.holds;
  const std::string text =
      common.json ? formats::indented_text(formats::answer_json(answer)) + "\n" : answer_text(question, answer, own);
  return {good ? exit_sound : exit_findings, text, std::get<Stock>(loaded).remarks};
}

}  // namespace duskwire::cli
