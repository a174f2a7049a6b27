// SPDX-License-Identifier: Apache-2.0
#include "cli/commands.hpp"
#include "cli/price_page.hpp"
#include "cli/session.hpp"
#include "formats/deposit_rules_file.hpp"
#include "formats/json_text.hpp"
#include "formats/price_json.hpp"
#include "study/price.hpp"

namespace duskwire::cli {

Outcome price_command(const PriceRequest& request, const Common& common, const TextStyle& style) {
  const Or<Session> opened = open_session(request.job, common, style);
  if (const auto* refused = std::get_if<Outcome>(&opened)) return *refused;
  const auto& session = std::get<Session>(opened);
  const estimate::Price price = study::price(session.job, session.stock, formats::embedded_deposit_rules().rules);
  Outcome outcome{has_errors(price.problems) ? exit_findings : exit_sound, "", session.remarks};
  formats::Json json = formats::price_json(price);
  outcome.text = price_text(session.job, price, session.style);
  if (!request.against.empty()) {
    const Or<Session> other = open_session(request.against, common, style);
    if (const auto* refused = std::get_if<Outcome>(&other)) return *refused;
    const auto& before = std::get<Session>(other);
    const estimate::PriceDifference moved = study::price_difference(before.job, session.job, session.stock);
    outcome.complaint += before.remarks;
    if (has_errors(moved.problems)) outcome.code = exit_findings;
    json["moved"] = formats::price_difference_json(moved);
    outcome.text += price_difference_text(before.job.title, moved, session.style);
  }
  if (common.json) outcome.text = formats::indented_text(json) + "\n";
  return outcome;
}

}  // namespace duskwire::cli
