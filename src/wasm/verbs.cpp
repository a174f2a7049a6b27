// SPDX-License-Identifier: Apache-2.0
#include "wasm/verbs.hpp"

#include <fmt/format.h>

#include <exception>
#include <optional>
#include <utility>

#include "estimate/materials.hpp"
#include "formats/advice_json.hpp"
#include "formats/answer_json.hpp"
#include "formats/calibration_json.hpp"
#include "formats/changes_json.hpp"
#include "formats/embedded.hpp"
#include "formats/job_reader.hpp"
#include "formats/job_writer.hpp"
#include "formats/json_text.hpp"
#include "formats/lamps_csv.hpp"
#include "formats/materials_json.hpp"
#include "formats/photometry_json.hpp"
#include "formats/problems_json.hpp"
#include "formats/report_json.hpp"
#include "formats/requests.hpp"
#include "study/advise.hpp"
#include "study/ask.hpp"
#include "study/calibrate_view.hpp"
#include "study/check.hpp"
#include "study/starter.hpp"
#include "wasm/export_verb.hpp"
#include "wasm/kept_document.hpp"
#include "wasm/light_verbs.hpp"
#include "wasm/night_face.hpp"
#include "wasm/price_verbs.hpp"
#include "wasm/route_session.hpp"
#include "wasm/service_verbs.hpp"
#include "wasm/shelf.hpp"
#include "wasm/times_verb.hpp"

namespace duskwire::wasm {
namespace {

using formats::Json;
Reply answer(const Json& tree) { return {false, formats::compact_text(tree)}; }

// A job with errors is checked and shown as far as it can be read; there is no report where it cannot.
Reply check_read(const formats::ReadJob& read, std::string_view options) {
  const auto asked = formats::read_check_request(options);
  if (!asked.request) return refuse_input("The options of check", asked.problems);
  std::string out = "{\"problems\":" + formats::compact_text(formats::problems_json(read.problems));
  if (read.job) {
    const std::string& wanted = asked.request->ruleset.empty() ? read.job->site.ruleset : asked.request->ruleset;
    const study::Ruleset* ruleset = ruleset_of(wanted);
    if (!ruleset) return refuse({ErrorCode::not_found, fmt::format("There is no ruleset \"{}\".", wanted)});
    out += ",\"report\":";
    formats::append_report(out, study::check(*read.job, *ruleset, stock(), {.cures = asked.request->cures}));
  }
  return {false, out + "}"};
}

Reply check(const Texts& given) { return check_read(formats::read_job_leniently(given[0]), given[1]); }

KeptDocument& kept() {
  static KeptDocument document;
  return document;
}

Reply check_and_keep(const Texts& given) {
  const formats::ParsedText parsed = kept().keep(given[0]);
  // What is wrong with the text itself is told by the reader of texts.
  if (!parsed.tree || !parsed.problems.empty()) return check(given);
  return check_read(formats::read_job_tree_leniently(*parsed.tree), given[1]);
}

Reply check_changed(const Texts& given) {
  const Result<const Json*> tree = kept().change(given[0]);
  if (!tree) return refuse(tree.error());
  return check_read(formats::read_job_tree_leniently(*tree.value()), given[1]);
}

Reply validate(const Texts& given) { return answer(formats::problems_json(formats::read_job(given[0]).problems)); }

Reply apply_changes(const Texts& given) {
  const formats::ReadJob read = formats::read_job(given[0]);
  if (!read.job) return refuse_input("The job", read.problems);
  const formats::ReadChanges changes = formats::read_changes(given[1]);
  if (!changes.changes) return refuse_input("The changes", changes.problems);
  const Result<job::Job> changed = job::apply(*read.job, *changes.changes, stock());
  if (!changed) return refuse(changed.error());
  return {false, formats::write_job(changed.value())};
}

Reply materials(const Texts& given) {
  const formats::ReadJob read = formats::read_job(given[0]);
  if (!read.job) return refuse_input("The job", read.problems);
  return answer(formats::materials_json(estimate::materials(*read.job, stock())));
}

Reply advise(const Texts& given) {
  const formats::ReadJob read = formats::read_job(given[0]);
  if (!read.job) return refuse_input("The job", read.problems);
  return answer(formats::advice_json(study::advise(*read.job, stock())));
}

Reply ask(const Texts& given) {
  auto asked = formats::read_ask_request(given[0]);
  if (!asked.request) return refuse_input("The question", asked.problems);
  asked.request->question.cables = sizes_to_choose(asked.request->units);
  const Result<study::Answer> answered = study::ask(asked.request->question, asked.request->units);
  if (!answered) return refuse(answered.error());
  return answer(formats::answer_json(answered.value()));
}

Reply calibrate(const Texts& given) {
  // Half-drawn jobs have errors elsewhere; a view that can be read can be calibrated.
  const formats::ReadJob read = formats::read_job_leniently(given[0]);
  if (!read.job) return refuse_input("The job", read.problems);
  for (const job::View& view : read.job->views) {
    if (view.id == given[1])
      return answer(formats::calibration_json(study::calibrate_view(view, read.job->site.units)));
  }
  return refuse({ErrorCode::not_found, fmt::format("The job has no view \"{}\".", given[1])});
}

Reply start_job(const Texts& given) {
  const auto asked = formats::read_start_request(given[0]);
  if (!asked.request) return refuse_input("The request", asked.problems);
  const formats::StartRequest& request = *asked.request;
  formats::ReadLamps table = formats::read_lamps_csv(request.lamps_csv, stock());
  if (has_errors(table.problems) || table.lamps.empty()) return refuse_input("The table of lamps", table.problems);
  const study::Ruleset* ruleset = ruleset_of(request.site.ruleset);
  if (!ruleset) return refuse({ErrorCode::not_found, fmt::format("There is no ruleset \"{}\".", request.site.ruleset)});
  const Result<job::Job> started =
      study::start_job({request.title, request.created, request.site, std::move(table.lamps)}, *ruleset, stock());
  if (!started) return refuse(started.error());
  return {false, formats::write_job(started.value())};
}

Reply photometry(const Texts& given) {
  const auto asked = formats::read_photometry_request(given[0]);
  if (!asked.request) return refuse_input("The request", asked.problems);
  return answer(formats::photometry_json(formats::answer_photometry(*asked.request)));
}

Reply stock_file(const Texts&) { return {false, std::string(formats::embedded_stock_catalogue())}; }

Reply rulesets(const Texts&) {
  std::string list;
  for (const std::string& id : formats::embedded_ruleset_ids()) {
    list += list.empty() ? "[" : ",";
    list += formats::embedded_ruleset(id);
  }
  return {false, list + "]"};
}

struct Verb {
  std::string_view name;
  std::size_t argument_count;
  Reply (*run)(const Texts&);
};

constexpr Verb verbs[] = {
    {"check", 2, check},
    {"check_and_keep", 2, check_and_keep},
    {"check_changed", 2, check_changed},
    {"validate", 1, validate},
    {"apply_changes", 2, apply_changes},
    {"advise", 1, advise},
    {"ask", 1, ask},
    {"calibrate", 2, calibrate},
    {"materials", 1, materials},
    {"price", 1, price},
    {"price_difference", 2, price_difference},
    {"price_band", 1, price_band},
    {"deposit_rules", 0, deposit_rules},
    {"photometry", 1, photometry},
    {"export_texts", 1, export_texts},
    {"stock", 0, stock_file},
    {"rulesets", 0, rulesets},
    {"start_job", 1, start_job},
    {"levels", 2, levels},
    {"level_sets", 0, level_sets},
    {"choose", 2, choose},
    {"times", 2, times},
    {"locate", 2, locate},
    {"readings", 2, readings},
    {"trace", 2, trace},
    {"route_begin", 2, route_begin},
    {"route_search", 1, route_search},
    {"route_answer", 0, route_answer},
    {"route_end", 0, route_end},
    {"night_picture", 2, night_picture},
    {"night_changed", 2, night_changed},
    {"night_probe", 1, night_probe},
};

Reply call_unguarded(std::string_view name, const Texts& given) {
  for (const Verb& verb : verbs) {
    if (verb.name != name) continue;
    if (given.size() == verb.argument_count) return verb.run(given);
    return refuse(
        {ErrorCode::invalid, fmt::format("\"{}\" takes {} texts, not {}.", name, verb.argument_count, given.size())});
  }
  return refuse({ErrorCode::unsupported, fmt::format("The engine has no verb \"{}\".", name)});
}

}  // namespace

Reply refuse(const Error& error, const Problems& problems) {
  constexpr const char* codes[] = {"", "unsupported", "invalid", "not_found", "conflict", "unavailable"};
  Json out;
  out["code"] = codes[static_cast<std::size_t>(error.code)];
  out["message"] = error.message;
  out["problems"] = formats::problems_json(problems);
  return {true, formats::compact_text(out)};
}

Reply refuse_input(const std::string& what, const Problems& problems) {
  for (const Problem& problem : problems) {
    if (problem.severity != Severity::error) continue;
    const std::string place = problem.pointer.empty() ? "" : problem.pointer + ": ";
    return refuse({ErrorCode::invalid, fmt::format("{} cannot be used. {}{}", what, place, problem.message)}, problems);
  }
  return refuse({ErrorCode::invalid, what + " cannot be used."}, problems);
}

Reply call(std::string_view verb, const std::vector<std::string_view>& given) {
  try {
    return call_unguarded(verb, given);
  } catch (const std::exception& bug) {
    return refuse({ErrorCode::unavailable, fmt::format("The engine failed at \"{}\": {}.", verb, bug.what())});
  }
}

}  // namespace duskwire::wasm
